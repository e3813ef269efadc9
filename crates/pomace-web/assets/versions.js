// Two who changed the same: both are shown, and one is chosen. Until then neither is overwritten.
import { button, mark, say, unsay } from "./notices.js";
import { state } from "./state.js";

export function show(theirs, choices) {
  state.isStopped = true;
  const [yours, others] = differences(said(state.text), said(theirs.text));
  const both = document.createElement("div");
  both.className = "halves";
  both.append(half("Yours", yours), half("The other", others));
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

// What a text says, line by line, each with what it says it of: `aquavit, 42 %: amount 40 mL`.
function said(text) {
  const told = [];
  let of = "", isNew = false;
  for (const line of text.split("\n").map((one) => one.trim()).filter(Boolean)) {
    if (line.startsWith("[[")) {
      of = line.replace(/[[\]]/g, "");
      isNew = true;
      continue;
    }
    const [, key, value] = line.match(/^([\w.]+)\s*=\s*"(.*)"/) ?? [];
    const words = key ? `${key} ${value}` : line;
    told.push(of && !isNew ? `${of}: ${words}` : words);
    if (isNew && key) of = value;
    isNew = false;
  }
  return told;
}

// What each of two lists has and the other has not, in its place: the longest that both have in order is left out.
function differences(ours, theirs) {
  const common = Array.from({ length: ours.length + 1 }, () => new Uint16Array(theirs.length + 1));
  for (let i = ours.length - 1; i >= 0; i--) {
    for (let j = theirs.length - 1; j >= 0; j--) {
      common[i][j] = ours[i] === theirs[j] ? common[i + 1][j + 1] + 1 : Math.max(common[i + 1][j], common[i][j + 1]);
    }
  }
  const found = [[], []];
  let i = 0, j = 0;
  while (i < ours.length || j < theirs.length) {
    if (i < ours.length && j < theirs.length && ours[i] === theirs[j]) i++, j++;
    else if (j === theirs.length || (i < ours.length && common[i + 1][j] >= common[i][j + 1])) found[0].push(ours[i++]);
    else found[1].push(theirs[j++]);
  }
  return found;
}
