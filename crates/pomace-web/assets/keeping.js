// Keeping: the text goes to the server's disk a moment after it was changed, and once only.
import { tell, token } from "./kept.js";
import { post, waitLonger } from "./line.js";
import { mark, say, unsay } from "./notices.js";
import { dirty, remember, state } from "./state.js";
import { here } from "./times.js";
import * as versions from "./versions.js";

const PAUSE_MS = 600;
const PATIENCE_MS = 20000;
// So many texts without an answer are remembered.
const UNANSWERED = 8;

let timer = 0, isSaving = false, imprint = "", attempt, settled;

export function begin(then) {
  ({ attempt, settled } = then);
  imprint = document.getElementById("kept")?.textContent ?? "";
}

// Tells beside the revision how it is, and keeps what is not kept.
export function settle() {
  if (dirty()) saveSoon();
  else if (!isSaving) {
    mark(imprint);
    settled();
  }
}

function saveSoon() {
  if (state.isStopped) return;
  clearTimeout(timer);
  timer = setTimeout(save, PAUSE_MS);
  mark("not kept yet");
}

// A text that was sent and not answered may be the current one: then its going back has to be kept too.
const isKept = () => state.text === state.saved && state.sent.length === 0;

export async function save(isLeaving) {
  clearTimeout(timer);
  if (isSaving || state.isStopped || isKept()) return;
  isSaving = true;
  const { text } = state;
  state.sent = [...state.sent.filter((one) => one !== text), text].slice(-UNANSWERED);
  remember();
  const answer = await post(
    "save",
    { text, based_on: state.revision, token: token() },
    { patience: PATIENCE_MS, isLeaving: isLeaving === true },
  );
  isSaving = false;
  if (!answer) return;
  if (answer.isGood) kept(text, answer);
  else if (answer.status === 409) overtaken(text, answer);
  else refused(text, answer);
}

function kept(text, { revision, when }) {
  state.revision = revision;
  state.saved = text;
  state.sent = [];
  unsay("fault");
  remember();
  imprint = told(revision, when);
  tell({ text, revision, imprint });
  settle();
}

const told = (revision, when) => `revision ${revision}, kept ${here(when)}`;

function overtaken(text, theirs) {
  // This one is not written, for certain; one before it may be.
  state.sent = state.sent.filter((one) => one !== text);
  if (state.sent.includes(theirs.text)) {
    goOnFrom(theirs);
    save();
  } else {
    choose(theirs);
  }
}

function goOnFrom({ text, revision }) {
  state.revision = revision;
  state.saved = text;
  state.sent = [];
  remember();
}

export function choose(theirs) {
  versions.show(theirs, [
    ["Keep yours as the next revision", () => {
      goOnFrom(theirs);
      attempt().then(save);
    }],
    ["Go on with the other", () => {
      state.undo.push({ text: state.text, movement: null });
      state.todo = [];
      takeOver(theirs);
    }],
  ]);
}

// Another text takes the place of this one.
export function takeOver(theirs) {
  state.text = theirs.text;
  state.redo = [];
  imprint = theirs.imprint ?? (theirs.when ? told(theirs.revision, theirs.when) : imprint);
  goOnFrom(theirs);
  attempt();
}

function refused(text, { status, fault, mend }) {
  if (status < 500) state.sent = state.sent.filter((one) => one !== text);
  if (status === 404) {
    gone();
    return;
  }
  say("fault", `${fault}.`, `${mend}.`);
  mark("not kept");
  waitLonger();
}

// Nothing is sent any more; what is here stays on this device.
export function gone() {
  state.isStopped = state.isGone = true;
  remember();
  say("gone", "This was taken out of the book.", "What you changed is kept on this device: bring it back from its history, and load this page again.");
  mark("not kept");
}

export function leaving() {
  remember();
  save(true);
}
