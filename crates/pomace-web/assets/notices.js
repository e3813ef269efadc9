// What the page has to say to the one who works at it: one notice of a kind, at the foot of the window.

const GRAVE = ["fault", "conflict", "full", "gone"];
// These go when what they tell of is over.
const STAYING = ["offline", "conflict", "gone"];

const find = (kind) => document.querySelector(`#notices [data-notice="${kind}"]`);

export function say(kind, sentence, mend = "", closed = () => {}) {
  const old = find(kind);
  const said = `${sentence} ${mend}`;
  // What is said already is not read out once more.
  if (old?.firstChild.textContent === said && kind !== "conflict") return old;
  old?.remove();
  const notice = document.createElement("div");
  notice.className = `message ${kind}`;
  notice.dataset.notice = kind;
  if (GRAVE.includes(kind)) notice.setAttribute("role", "alert");
  const words = document.createElement("p");
  const strong = document.createElement("b");
  strong.textContent = sentence;
  words.append(strong, ` ${mend}`);
  notice.append(words);
  if (!STAYING.includes(kind)) {
    notice.append(button("act", "all right", () => {
      notice.remove();
      closed();
    }));
  }
  document.getElementById("notices").append(notice);
  return notice;
}

export function unsay(kind) {
  find(kind)?.remove();
}

export function button(style, label, act) {
  const one = document.createElement("button");
  one.type = "button";
  one.className = style;
  one.textContent = label;
  one.addEventListener("click", act);
  return one;
}

// Beside the revision: whether all is kept.
export function mark(words) {
  const place = document.getElementById("kept");
  if (place) place.textContent = words;
}
