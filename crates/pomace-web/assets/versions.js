// Two who changed the same: both are shown, and one is chosen. Until then neither is overwritten.
import { post } from "./line.js";
import { button, mark, say, unsay } from "./notices.js";
import { state } from "./state.js";
import { here } from "./times.js";

const PATIENCE_MS = 8000;

export async function show(theirs, choices) {
  state.isStopped = true;
  mark("two versions");
  // In the words of the history, which the server has.
  const asked = { based_on: state.revision, yours: state.text, other: theirs.text };
  const told = await post("beside", asked, { patience: PATIENCE_MS });
  const at = theirs.when ? ` on ${here(theirs.when)}` : "";
  const notice = say("conflict", `${theirs.fault}${at}.`, "Neither is overwritten: both are kept until you choose.");
  if (told?.isGood) {
    const both = document.createElement("div");
    both.className = "halves";
    both.append(half("Yours", told.yours), half("The other", told.other));
    notice.append(both);
  }
  const buttons = document.createElement("div");
  buttons.className = "buttons";
  for (const [label, act] of choices) {
    buttons.append(button("button", label, () => {
      state.isStopped = false;
      unsay("conflict");
      act();
    }));
  }
  notice.append(buttons);
  mark("two versions");
}

function half(heading, changes) {
  const box = document.createElement("div");
  const head = document.createElement("h3");
  head.textContent = heading;
  box.append(head);
  for (const [what, how] of changes.length ? changes : [["as it was", ""]]) {
    const line = document.createElement("p");
    line.textContent = how ? `${what}: ${how}` : what;
    box.append(line);
  }
  return box;
}
