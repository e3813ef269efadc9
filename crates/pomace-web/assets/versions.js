// Two who changed the same: both are shown, and one is chosen. Until then neither is overwritten.
import { button, mark, say, unsay } from "./notices.js";
import { state } from "./state.js";

const lines = (text) => text.split("\n").map((line) => line.trim()).filter(Boolean);
const only = (of, other) => lines(of).filter((line) => !lines(other).includes(line));

export function show(theirs, choices) {
  state.isStopped = true;
  const both = document.createElement("div");
  both.className = "halves";
  both.append(half("Yours", only(state.text, theirs.text)), half("The other", only(theirs.text, state.text)));
  const buttons = document.createElement("div");
  buttons.className = "buttons";
  for (const [label, act] of choices) {
    buttons.append(button("button", label, () => {
      state.isStopped = false;
      unsay("conflict");
      act();
    }));
  }
  const notice = say("conflict", `${theirs.fault}.`, "Neither is overwritten: both are kept until you choose.");
  notice.append(both, buttons);
  mark("two versions");
}

function half(heading, list) {
  const box = document.createElement("div");
  const head = document.createElement("h3");
  head.textContent = heading;
  box.append(head);
  for (const line of list.length ? list : ["nothing more"]) {
    const code = document.createElement("p");
    code.className = "code";
    code.textContent = line;
    box.append(code);
  }
  return box;
}
