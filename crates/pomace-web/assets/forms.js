// What a form asks for, as the server takes it.

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

// Whether a form says nothing new. What it says counts as sent from now on.
export function isAsItWas(form) {
  const field = form.elements.value;
  if (field?.nodeName !== "INPUT" || field.type === "hidden") return false;
  if (field.value === field.defaultValue) return true;
  field.defaultValue = field.value;
  return false;
}
