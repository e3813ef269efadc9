// What this page has, what was asked of it, and what of that the server has.
import { drop, keep } from "./kept.js";
import { say, unsay } from "./notices.js";

export const state = {
  id: "",
  // The text as it is here; the revision that it began from, and that one's text.
  text: "", revision: 0, saved: "",
  // What was asked and is not done yet, in order: a `change` as the server takes it, a `tap` on a stepper, a
  // `step` back or forth.
  todo: [],
  // Where undo and redo lead: texts, and how the items of a list lie there.
  undo: [], redo: [],
  // Texts that were sent to be kept, and no answer was seen.
  sent: [],
  // Words in fields that were not sent, by the place of the field; and those whose place is taken.
  words: {}, strayed: {},
  // Nothing is kept while two versions wait for somebody's choice.
  isStopped: false,
};

export function dirty() {
  return state.text !== state.saved || state.todo.length > 0 || state.sent.length > 0;
}

export function remember() {
  const words = { ...state.strayed, ...state.words };
  const copy = { when: Date.now() };
  if (dirty()) {
    const { revision, text, todo, sent } = state;
    copy.draft = { revision, text, todo, sent };
  }
  if (Object.keys(words).length) copy.words = words;
  if (!copy.draft && !copy.words) {
    drop(state.id);
    return true;
  }
  const isKept = keep(state.id, copy);
  if (isKept) unsay("full");
  else say("full", "This device has no room to keep what is not saved yet.", "Do not close the page until it says kept.");
  return isKept;
}
