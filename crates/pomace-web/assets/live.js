// A document that answers at once: each form of the page is sent without leaving it, tried out, shown, and a
// moment later kept. What is asked while an answer is under way waits for its turn.
import { look, takeUp } from "./earlier.js";
import { changeOf, changeOfTap, giveBack, send, tapOf } from "./forms.js";
import * as keeping from "./keeping.js";
import { meet } from "./kept.js";
import * as line from "./line.js";
import { morph } from "./morph.js";
import { mark, say, unsay } from "./notices.js";
import { back, carry, movementOf } from "./places.js";
import { dirty, remember, state } from "./state.js";
import { gather, isOne } from "./typed.js";
import { watchFields } from "./find.js";

const PATIENCE_MS = 8000;
const SLIP_MS = 500;
const WIDTHS = [["desktop", "(min-width:1440px)"], ["tablet", "(min-width:768px)"]];
// A change that cannot be made now or later.
const IN_VAIN = [400, 413, 422];

// What the page shows: stamps of its parts, where the drink stands, scales of its field; the width of its
// drawings, none while there are drawings for all.
let main, shown, unit;
let isTrying = false, isWanted = false, isLooking = true;
// When a form added something last.
const added = new WeakMap();
// How items moved since the page was last laid out.
let moving = [];

const width = () => WIDTHS.find(([, query]) => matchMedia(query).matches)?.[0] ?? "phone";

export async function begin() {
  main = document.querySelector("[data-live]");
  const text = document.getElementById("text").textContent;
  Object.assign(state, { id: main.dataset.live, revision: Number(main.dataset.revision), text, saved: text });
  shown = { stamps: {}, width: null, ...JSON.parse(main.dataset.shown ?? "{}") };
  for (const part of document.querySelectorAll("[data-part]")) shown.stamps[part.dataset.part] = part.dataset.stamp;
  unit = new URLSearchParams(location.search).get("in") ?? "written";
  keeping.begin({ attempt, settled: () => takeUp() && attempt() });
  line.watch(again);
  meet(state.id, heard);
  listen();
  const isMore = await look();
  isLooking = false;
  if (isMore || isWanted) attempt();
  main.dataset.ready = "";
}

function listen() {
  document.addEventListener("submit", submitted);
  document.addEventListener("change", changed);
  document.addEventListener("input", ({ target }) => isOne(target) && gather());
  document.addEventListener("click", clicked);
  document.addEventListener("keydown", keys);
  addEventListener("pagehide", keeping.leaving);
  // A page out of the browser's own store may be old by now.
  addEventListener("pageshow", ({ persisted }) => persisted && location.reload());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") keeping.leaving();
    else line.atOnce();
  });
  for (const [, query] of WIDTHS) matchMedia(query).addEventListener("change", () => shown.width && shown.width !== width() && attempt());
}

// ---- what is asked ----

function ask(entry) {
  unsay("back");
  unsay("refused");
  state.todo.push(entry);
  remember();
  if (line.isCut()) line.sayCut();
  else mark("not kept yet");
  attempt();
}

function submitted(event) {
  const form = event.target.closest("form[data-change]");
  if (!form || event.defaultPrevented) return;
  event.preventDefault();
  const tap = tapOf(form, event.submitter);
  if (tap) {
    ask({ tap });
    return;
  }
  const change = changeOf(form, event.submitter);
  // A wet finger that slips presses twice; nobody adds two things so soon.
  if (change.do === "add" && event.timeStamp - (added.get(form) ?? -Infinity) < SLIP_MS) return;
  added.set(form, event.timeStamp);
  const sent = send(form, change);
  if (sent) ask({ change, sent });
  gather();
}

function changed({ target }) {
  if (target.matches?.("form[data-change] :is(input,select,textarea)[name=value]")) target.form.requestSubmit();
}

function clicked(event) {
  const target = event.target.closest?.("[data-undo],[data-redo],[data-unit]");
  if (!target) return;
  if (target.dataset.undo !== undefined) step("undo");
  else if (target.dataset.redo !== undefined) step("redo");
  else {
    event.preventDefault();
    unit = target.dataset.unit;
    history.replaceState(null, "", unit === "written" ? location.pathname : `?in=${unit}`);
    attempt();
  }
}

function keys(event) {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  if (event.target.matches?.("input,textarea") && event.target.value !== event.target.defaultValue) return;
  event.preventDefault();
  step(event.shiftKey ? "redo" : "undo");
}

function step(way) {
  if (state[way].length || state.todo.length) ask({ step: way });
}

function walk(way) {
  const there = state[way].pop();
  if (!there) return;
  const opposite = way === "undo" ? state.redo : state.undo;
  opposite.push({ text: state.text, movement: back(there.movement) });
  moving.push(there.movement);
  state.text = there.text;
}

// The change whose turn it is; none after steps, which are shown before anything else is done.
function next() {
  let isStepped = false;
  while (state.todo[0]?.step) {
    walk(state.todo.shift().step);
    isStepped = true;
  }
  while (!isStepped && state.todo[0]?.tap) {
    const change = changeOfTap(state.todo.shift().tap);
    if (change) state.todo.unshift({ change });
  }
  remember();
  return isStepped ? null : state.todo[0]?.change ?? null;
}

// ---- trying out ----

async function attempt() {
  isWanted = true;
  if (isTrying || isLooking || state.isGone) return;
  isTrying = true;
  isWanted = false;
  const change = next();
  const { text } = state;
  const drawn = width();
  const answer = await line.post(
    "try",
    {
      text, changes: change ? [change] : [], in: unit, width: drawn,
      was: change ? shown.stand : null, scales: shown.scales, have: shown.stamps,
    },
    { patience: PATIENCE_MS, late: pale },
  );
  isTrying = false;
  if (!answer) pale();
  else if (answer.isGood) worked(answer, change, text, drawn);
  else refused(answer, change);
  if (answer && !line.isWaiting() && (isWanted || state.todo.length)) await attempt();
}

// The figures may be of another text than the page's.
const pale = () => main.classList.add("stale");

function worked(answer, change, text, drawn) {
  // Another text has taken the place of the one that was tried.
  if (state.text !== text) {
    isWanted = true;
    return;
  }
  const asked = change && state.todo.shift();
  if (asked?.sent && answer.refused.length) giveBack(asked.sent);
  if (answer.text !== text) {
    const movement = movementOf(change);
    state.undo.push({ text, movement: back(movement) });
    state.redo = [];
    state.text = answer.text;
    moving.push(movement);
  }
  shown = { stamps: answer.stamps, stand: answer.stand, scales: answer.scales, width: drawn };
  show(answer.parts);
  for (const sentence of answer.refused) say("refused", sentence);
  main.classList.remove("stale");
  gather();
  settle();
}

function settle() {
  if (state.overtaken && state.todo.length === 0) {
    keeping.choose(state.overtaken);
    state.overtaken = null;
  } else {
    keeping.settle();
  }
}

function refused({ status, fault, mend }, change) {
  if (status === 404) {
    keeping.gone();
    return;
  }
  say("fault", `${fault}.`, `${mend}.`);
  if (!IN_VAIN.includes(status)) {
    line.waitLonger();
    return;
  }
  const asked = change && state.todo.shift();
  if (asked?.sent) giveBack(asked.sent);
  gather();
  settle();
}

function show(parts) {
  for (const movement of moving.splice(0)) if (movement) carry(movement);
  for (const [name, html] of Object.entries(parts)) {
    const place = document.querySelector(`[data-part="${name}"]`);
    if (!place) continue;
    const wanted = document.createElement("div");
    wanted.dataset.part = name;
    wanted.innerHTML = html;
    morph(place, wanted);
    watchFields(place);
  }
  for (const [ways, selector] of [[state.undo, "[data-undo]"], [state.redo, "[data-redo]"]]) {
    for (const button of document.querySelectorAll(selector)) button.hidden = button.disabled = ways.length === 0;
  }
  for (const field of document.querySelectorAll("form[data-change] input[name=based_on]")) field.value = state.revision;
  const house = document.title.split(" · ").pop();
  document.title = `${document.querySelector("h1").textContent} · ${house}`;
}

function again() {
  if (state.todo.length || main.classList.contains("stale")) attempt();
  else keeping.save();
}

// ---- other pages of this browser ----

// What another page has kept is taken over where nothing is under way here.
function heard(theirs) {
  if (dirty() || isTrying || state.isStopped || theirs.revision <= state.revision) return;
  state.undo.push({ text: state.text, movement: null });
  keeping.takeOver(theirs);
}
