// What a form asks for, as the server takes it.
import { FIELDS, placeOf } from "./typed.js";

const TEXTS = ["list", "key", "what", "amount", "enters", "verb"];
const NUMBERS = ["at", "to"];

export function changeOf(form, submitter) {
  const fields = Object.fromEntries(new FormData(form, submitter));
  const change = { do: fields.do, value: fields.pick ?? fields.value ?? "" };
  for (const name of TEXTS) if (fields[name] !== undefined) change[name] = fields[name];
  for (const name of NUMBERS) if (fields[name] !== undefined) change[name] = Number(fields[name]);
  if (fields.pick === undefined && fields.unit) change.unit = fields.unit;
  return change;
}

// A tap on a stepper means one step more from where the taps before it lead, so it is told by its button,
// and read when its turn comes.
export function tapOf(form, submitter) {
  if (submitter?.name !== "pick") return null;
  return { key: form.closest("[data-key]").dataset.key, side: submitter.className };
}

export function changeOfTap({ key, side }) {
  const button = document.querySelector(`[data-key="${CSS.escape(key)}"] button.${CSS.escape(side)}`);
  return button && !button.disabled ? changeOf(button.form, button) : null;
}

// What is typed in a form counts as sent from now on: its fields, with what stood in them before. Null where
// it says nothing new.
export function send(form, change) {
  const typed = [...form.querySelectorAll(FIELDS)].filter((field) => field.value !== field.defaultValue);
  if (change.do === "set" && typed.length === 0 && form.elements.value?.matches?.(FIELDS)) return null;
  const sent = typed.map((field) => ({ place: placeOf(field), was: field.defaultValue, is: field.value }));
  if (change.do === "add") form.reset();
  else for (const field of typed) field.defaultValue = field.value;
  return sent;
}

// A field whose words were refused has them as words that were not sent.
export function giveBack(sent) {
  for (const field of document.querySelectorAll(FIELDS)) {
    const one = sent.find(({ place }) => place === placeOf(field));
    if (one && field.value === one.is) field.defaultValue = one.was;
    else if (one && field.value === one.was) field.value = one.is;
  }
}
