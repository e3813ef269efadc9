// Words in fields that were not sent: they come back with the page, where what stood there is the same.
import { remember, state } from "./state.js";
import { say } from "./notices.js";

export const FIELDS = "form[data-change] :is(input:not([type=hidden]),textarea)";

export const placeOf = (field) => {
  const part = (name) => field.form?.elements[name]?.value ?? "";
  return [part("do"), part("list"), part("at"), part("key"), field.name].join("/");
};

export const isOne = (field) => Boolean(field.matches?.(FIELDS));

export function gather() {
  state.words = {};
  for (const field of document.querySelectorAll(FIELDS)) {
    if (field.value !== field.defaultValue) state.words[placeOf(field)] = { was: field.defaultValue, is: field.value };
  }
  remember();
}

export function bring(words) {
  const rest = { ...words };
  for (const field of document.querySelectorAll(FIELDS)) {
    const one = rest[placeOf(field)];
    if (!one || one.was !== field.defaultValue || field.value !== field.defaultValue) continue;
    field.value = one.is;
    field.closest("details")?.setAttribute("open", "");
    delete rest[placeOf(field)];
  }
  Object.assign(state.strayed, rest);
  gather();
  const strayed = Object.values(state.strayed).map((one) => `“${one.is}”`);
  if (!strayed.length) return;
  say("strayed", `You had typed ${strayed.join(", ")} and not sent it.`, "Something else stands in that place by now.", () => {
    state.strayed = {};
    remember();
  });
}
