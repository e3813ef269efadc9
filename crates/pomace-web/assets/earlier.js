// What earlier pages of this document left on this device: a page that was closed, a tablet that fell asleep.
import { isThere, left, moved } from "./kept.js";
import { say } from "./notices.js";
import { remember, state } from "./state.js";
import { bring } from "./typed.js";

let copies;

export async function look() {
  copies = await left(state.id);
  return takeUp();
}

// Takes up one copy, the next when that is settled. Tells whether there is something to work out.
export function takeUp() {
  const one = copies?.shift();
  if (!one) return false;
  if (!isThere(one)) return takeUp();
  const isNew = one.copy.draft ? draft(one.copy.draft) : false;
  bring(one.copy.words ?? {});
  if (remember()) moved(one);
  return isNew || takeUp();
}

function draft({ text, revision, todo, sent }) {
  if (text === state.text && todo.length === 0) return false;
  // A save whose answer nobody saw made the revision that is here.
  const isOwn = revision === state.revision || text === state.text || sent.includes(state.text);
  if (isOwn) {
    if (revision === state.revision) state.sent = sent;
    say("back", "What you had changed here is back.");
  } else {
    state.overtaken = { text: state.text, revision: state.revision, fault: "This was changed elsewhere while you were away" };
    // As long as nobody chose, it stays a version beside the other.
    state.revision = revision;
    state.sent = sent;
    state.isStopped = true;
  }
  state.text = text;
  state.todo = [...todo, ...state.todo];
  return true;
}
