// Makes a piece of the page like another, and touches only what differs: focus, scrolling and what is
// being typed stay as they are.

const keyOf = (node) => node.nodeType === 1 ? node.dataset.key ?? node.id ?? "" : "";

function alike(a, b) {
  return a.nodeType === b.nodeType && a.nodeName === b.nodeName && keyOf(a) === keyOf(b);
}

function attributes(from, to) {
  for (const { name } of [...from.attributes]) {
    // Whether a fold is open is the reader's.
    if (!to.hasAttribute(name) && !(name === "open" && from.nodeName === "DETAILS")) from.removeAttribute(name);
  }
  for (const { name, value } of [...to.attributes]) {
    if (from.getAttribute(name) !== value) from.setAttribute(name, value);
  }
}

function field(from, to) {
  const typed = from.value !== from.defaultValue;
  // What somebody is typing, or has typed and not sent, is overwritten only by another value.
  if (typed && (from === document.activeElement || from.defaultValue === to.defaultValue)) return;
  from.defaultValue = to.defaultValue;
  from.value = to.defaultValue;
}

export function morph(from, to) {
  const isField = from.nodeName === "INPUT" || from.nodeName === "TEXTAREA";
  if (from.isEqualNode(to) && !isField) return;
  if (from.nodeType === 1) {
    if (isField && from.type !== "radio" && from.type !== "hidden") field(from, to);
    attributes(from, to);
    // The words within a field are its value.
    if (!isField) children(from, to);
  } else if (from.nodeValue !== to.nodeValue) {
    from.nodeValue = to.nodeValue;
  }
}

function children(from, to) {
  let old = from.firstChild;
  for (const wanted of [...to.childNodes]) {
    if (old?.nodeType === 1 && old.dataset.own !== undefined) old = old.nextSibling;
    let found = old;
    while (found && !alike(found, wanted)) found = found.nextSibling;
    if (!found) {
      from.insertBefore(wanted, old);
      continue;
    }
    while (old !== found) {
      const next = old.nextSibling;
      old.remove();
      old = next;
    }
    old = found.nextSibling;
    morph(found, wanted);
  }
  while (old) {
    const next = old.nextSibling;
    if (old.nodeType !== 1 || old.dataset.own === undefined) old.remove();
    old = next;
  }
}
