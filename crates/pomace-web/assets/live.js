// A document that answers at once: each form of the page is sent without leaving it, tried out, shown, and
// a moment later kept. Until the server has it on disk it is kept on this device.
import { read } from "./answer.js";
import { morph } from "./morph.js";
import { drop, keep, keepTyped, load, typed } from "./kept.js";
import { watchFields } from "./find.js";

const PAUSE = 600;
const LONGEST_WAIT = 12000;

let main, notices, state;

const token = () => [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
const width = () => matchMedia("(min-width:1440px)").matches ? "desktop" : matchMedia("(min-width:768px)").matches ? "tablet" : "phone";

export function begin() {
  main = document.querySelector("[data-live]");
  notices = document.getElementById("notices");
  const text = document.getElementById("text").textContent;
  state = {
    id: main.dataset.live,
    revision: Number(main.dataset.revision),
    text, saved: text, imprint: document.getElementById("kept")?.textContent ?? "", queue: [], taps: [],
    undo: [], redo: [], stamps: {}, stand: null, scales: null,
    unit: new URLSearchParams(location.search).get("in") ?? "written",
    token: null, isTrying: false, isSaving: false, wait: 0, timer: 0, retry: 0,
  };
  document.addEventListener("submit", submitted);
  document.addEventListener("change", changed);
  document.addEventListener("input", typing);
  document.addEventListener("click", clicked);
  document.addEventListener("keydown", keys);
  addEventListener("online", () => again(true));
  addEventListener("pagehide", leaving);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") leaving();
    else again(true);
  });
  for (const edge of ["(min-width:768px)", "(min-width:1440px)"]) matchMedia(edge).addEventListener("change", () => attempt());
  takeUp();
  bringTyped();
}

// ---- what is under way ----

function dirty() {
  return state.text !== state.saved || state.queue.length > 0 || state.taps.length > 0;
}

function remember() {
  if (!dirty()) {
    drop(state.id);
    return;
  }
  const { revision, text, queue, taps, token } = state;
  if (!keep(state.id, { revision, text, queue, taps, token })) {
    say("full", "This device has no room to keep what is not saved yet.", "Do not close the page until it says kept.");
  }
}

// What was left here before: a page that was closed, a tablet that fell asleep.
function takeUp() {
  const left = load(state.id);
  if (!left || (left.text === state.text && left.queue.length === 0 && !left.taps?.length)) {
    drop(state.id);
    attempt();
    return;
  }
  if (left.revision === state.revision) {
    state.text = left.text;
    state.queue = left.queue;
    state.taps = left.taps ?? [];
    state.token = left.token;
    say("back", "What you had changed here is back.", "");
    attempt();
  } else {
    const theirs = { text: state.text, revision: state.revision };
    state.text = left.text;
    state.queue = left.queue;
    conflict({ ...theirs, fault: "This was changed elsewhere while you were away", differ: null });
  }
}

// ---- forms ----

function submitted(event) {
  const form = event.target.closest("form[data-change]");
  if (!form || event.defaultPrevented) return;
  event.preventDefault();
  const fields = Object.fromEntries(new FormData(form, event.submitter));
  const change = { do: fields.do, value: fields.pick ?? fields.value ?? "" };
  for (const name of ["list", "key", "what", "amount", "enters", "verb"]) if (fields[name] !== undefined) change[name] = fields[name];
  for (const name of ["at", "to"]) if (fields[name] !== undefined) change[name] = Number(fields[name]);
  if (fields.pick === undefined && fields.unit) change.unit = fields.unit;
  if (fields.pick !== undefined) {
    // A second tap means a second step, from where the first leads.
    if (state.isTrying || state.queue.length) {
      state.taps.push({ key: form.closest("[data-key]")?.dataset.key, side: event.submitter.className });
      remember();
      return;
    }
  } else if (change.do === "set") {
    const input = form.elements.value;
    if (input.type !== "hidden" && input.nodeName === "INPUT") {
      if (input.value === input.defaultValue) return;
      input.defaultValue = input.value;
    }
  }
  for (const input of form.querySelectorAll("input:not([type=hidden])")) forget(input);
  if (change.do === "add") form.reset();
  make(change);
}

function changed(event) {
  const field = event.target;
  if (field.matches?.("form[data-change] :is(input,select)[name=value]")) field.form.requestSubmit();
}

function make(change) {
  state.undo.push(state.text);
  state.redo = [];
  state.queue.push(change);
  remember();
  attempt();
}

function clicked(event) {
  const target = event.target.closest?.("[data-undo],[data-redo],[data-unit],[data-mine],[data-theirs],[data-close]");
  if (!target) return;
  if (target.dataset.undo !== undefined) step(state.undo, state.redo);
  else if (target.dataset.redo !== undefined) step(state.redo, state.undo);
  else if (target.dataset.close !== undefined) target.closest("[data-notice]").remove();
  else if (target.dataset.unit !== undefined) {
    event.preventDefault();
    state.unit = target.dataset.unit;
    history.replaceState(null, "", state.unit === "written" ? location.pathname : `?in=${state.unit}`);
    attempt();
  }
}

function keys(event) {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  if (event.target.matches?.("input,textarea") && event.target.value !== event.target.defaultValue) return;
  event.preventDefault();
  if (event.shiftKey) step(state.redo, state.undo);
  else step(state.undo, state.redo);
}

function step(from, to) {
  if (!from.length || state.isTrying || state.queue.length) return;
  to.push(state.text);
  state.text = from.pop();
  remember();
  attempt();
}

// ---- trying out ----

async function attempt() {
  if (state.isTrying) {
    state.isWanted = true;
    return;
  }
  state.isTrying = true;
  const count = state.queue.length;
  try {
    const answer = await fetch(`/d/${state.id}/try`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({
        text: state.text, changes: state.queue, in: state.unit, width: width(),
        was: count ? state.stand : null, scales: state.scales, have: state.stamps,
      }),
    });
    const json = await read(answer);
    reached();
    state.queue.splice(0, count);
    if (answer.ok) {
      state.text = json.text;
      state.stamps = json.stamps;
      state.stand = json.stand;
      state.scales = json.scales;
      show(json.parts);
      for (const sentence of json.refused) say("refused", sentence, "");
      main.classList.remove("stale");
    } else {
      say("fault", json.fault, json.mend);
    }
    remember();
    if (dirty()) saveSoon();
    // Back at what is kept, as after a step there and back.
    else if (!state.isSaving) mark(state.imprint);
  } catch {
    unreached();
  }
  state.isTrying = false;
  if (state.isWanted || state.queue.length > 0) {
    state.isWanted = false;
    if (!state.wait) attempt();
  } else {
    tapAgain();
  }
}

function tapAgain() {
  const tap = state.taps.shift();
  if (!tap) return;
  const side = tap.side.split(" ")[0];
  const button = document.querySelector(`[data-key="${CSS.escape(tap.key ?? "")}"] button.${side}`);
  if (button && !button.disabled) button.form.requestSubmit(button);
  else tapAgain();
}

function show(parts) {
  for (const [name, html] of Object.entries(parts)) {
    const place = document.querySelector(`[data-part="${name}"]`);
    if (!place) continue;
    const wanted = document.createElement("div");
    wanted.dataset.part = name;
    wanted.innerHTML = html;
    morph(place, wanted);
    watchFields(place);
  }
  for (const button of document.querySelectorAll("[data-undo]")) button.hidden = state.undo.length === 0;
  for (const button of document.querySelectorAll("[data-redo]")) button.hidden = state.redo.length === 0;
  for (const form of document.querySelectorAll("form[data-change] input[name=based_on]")) form.value = state.revision;
}

// ---- keeping ----

function saveSoon() {
  clearTimeout(state.timer);
  state.timer = setTimeout(save, PAUSE);
  mark("not kept yet");
}

async function save(isLeaving) {
  clearTimeout(state.timer);
  if (state.isSaving || state.isStopped) return;
  if (state.text === state.saved) {
    if (!dirty()) mark(state.imprint);
    return;
  }
  state.isSaving = true;
  const text = state.text;
  // The same save sent twice is done once; another text is another save.
  if (!state.token || state.tokenOf !== text) {
    state.token = token();
    state.tokenOf = text;
    remember();
  }
  try {
    const answer = await fetch(`/d/${state.id}/save`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ text, based_on: state.revision, token: state.token }),
      keepalive: isLeaving === true && text.length < 60000,
    });
    const json = await answer.json();
    reached();
    if (answer.ok) {
      state.revision = json.revision;
      state.saved = text;
      state.token = null;
      unsay("fault");
      unsay("offline");
      remember();
      state.imprint = `revision ${json.revision}, kept ${json.when.slice(11, 16)} UTC`;
      mark(state.imprint);
    } else if (answer.status === 409) {
      conflict(json);
    } else {
      say("fault", json.fault, json.mend);
      mark("not kept");
      waitLonger();
    }
  } catch {
    unreached();
  }
  state.isSaving = false;
  if (state.text !== state.saved && !state.wait && !state.isStopped) saveSoon();
}

function leaving() {
  remember();
  if (state.text !== state.saved) save(true);
}

function mark(words) {
  const place = document.getElementById("kept");
  if (place) place.textContent = words;
}

// ---- no connection ----

function reached() {
  state.wait = 0;
  clearTimeout(state.retry);
  unsay("offline");
}

function unreached() {
  main.classList.add("stale");
  say("offline", "No connection.", "What you enter is kept on this device and sent when it is back.");
  mark("not kept yet");
  waitLonger();
}

function waitLonger() {
  state.wait = Math.min(LONGEST_WAIT, (state.wait || 500) * 2);
  clearTimeout(state.retry);
  state.retry = setTimeout(() => again(false), state.wait);
}

function again(isAtOnce) {
  if (isAtOnce) state.wait = 0;
  if (state.queue.length || main.classList.contains("stale")) attempt();
  else if (state.text !== state.saved) save();
}

// ---- two who changed the same ----

function conflict(theirs) {
  state.isStopped = true;
  const lines = (heading, list) => {
    const box = document.createElement("div");
    const head = document.createElement("h3");
    head.textContent = heading;
    box.append(head);
    for (const line of list ?? []) {
      const code = document.createElement("p");
      code.className = "code";
      code.textContent = line;
      box.append(code);
    }
    return box;
  };
  const only = (of, other) => of.split("\n").map((l) => l.trim()).filter((l) => l && !other.includes(l));
  const differ = theirs.differ ?? { theirs: only(theirs.text, state.text), ours: only(state.text, theirs.text) };
  const both = document.createElement("div");
  both.className = "halves";
  both.append(lines("Yours", differ.ours), lines("The other", differ.theirs));
  const buttons = document.createElement("div");
  buttons.className = "buttons";
  const button = (label, act) => {
    const one = document.createElement("button");
    one.type = "button";
    one.className = "button";
    one.textContent = label;
    one.addEventListener("click", () => {
      state.isStopped = false;
      unsay("conflict");
      act();
    });
    return one;
  };
  buttons.append(
    button("Keep yours as the next revision", () => {
      state.revision = theirs.revision;
      state.saved = theirs.text;
      state.token = null;
      attempt().then(() => save());
    }),
    button("Go on with the other", () => {
      state.undo.push(state.text);
      state.text = state.saved = theirs.text;
      state.queue = [];
      state.revision = theirs.revision;
      remember();
      attempt();
    }),
  );
  const notice = say("conflict", `${theirs.fault}.`, "Neither is overwritten; both stay in the history.");
  notice.append(both, buttons);
  mark("two versions");
}

// ---- words in fields ----

const placeOf = (field) => {
  const form = field.form;
  const part = (name) => form?.elements[name]?.value ?? "";
  return [part("do"), part("list"), part("at"), part("key"), field.name].join("/");
};

function typing(event) {
  const field = event.target;
  if (!field.matches?.("form[data-change] input:not([type=hidden])")) return;
  const words = typed(state.id);
  if (field.value === field.defaultValue) delete words[placeOf(field)];
  else words[placeOf(field)] = { was: field.defaultValue, is: field.value };
  keepTyped(state.id, words);
}

function forget(field) {
  const words = typed(state.id);
  delete words[placeOf(field)];
  keepTyped(state.id, words);
}

function bringTyped() {
  const words = typed(state.id);
  for (const field of document.querySelectorAll("form[data-change] input:not([type=hidden])")) {
    const one = words[placeOf(field)];
    if (one && one.was === field.defaultValue) {
      field.value = one.is;
      field.closest("details")?.setAttribute("open", "");
    }
  }
}

// ---- notices ----

function say(kind, sentence, mend) {
  unsay(kind);
  const notice = document.createElement("div");
  notice.className = `message ${kind}`;
  notice.dataset.notice = kind;
  if (kind === "fault" || kind === "conflict" || kind === "full") notice.setAttribute("role", "alert");
  const words = document.createElement("p");
  const strong = document.createElement("b");
  strong.textContent = sentence;
  words.append(strong, ` ${mend}`);
  notice.append(words);
  if (kind !== "offline" && kind !== "conflict") {
    const close = document.createElement("button");
    close.type = "button";
    close.className = "act";
    close.dataset.close = "";
    close.textContent = "all right";
    notice.append(close);
  }
  notices.append(notice);
  return notice;
}

function unsay(kind) {
  notices.querySelector(`[data-notice="${kind}"]`)?.remove();
}
