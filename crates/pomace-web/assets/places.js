// Where the items of a list lie after one came, went or moved: what was asked of an item, and what is typed
// in it, goes with it. A movement goes from a place, or none, to a place, or none.
import { state } from "./state.js";

export function movementOf({ do: change, list, at, to }) {
  if (!list) return null;
  if (change === "remove") return { list, from: at, to: null };
  if (change === "move") return { list, from: at, to };
  if (change === "add") return { list, from: null, to: Infinity };
  return null;
}

export const back = (movement) => movement && { ...movement, from: movement.to, to: movement.from };

function after({ from, to }, index) {
  if (index === from) return to;
  let at = index;
  if (from !== null && at > from) at--;
  if (to !== null && at >= to) at++;
  return at;
}

// Moves what the page shows of the list, and what still is to be done with it.
export function carry(movement) {
  const mine = `${movement.list}-`;
  const items = [];
  for (const item of document.querySelectorAll(`[data-key^="${mine}"]`)) {
    const at = after(movement, Number(item.dataset.key.slice(mine.length)));
    if (at === null) {
      const next = item.nextElementSibling ?? item.previousElementSibling;
      const isHere = item.contains(document.activeElement);
      item.remove();
      if (isHere) next?.querySelector("summary,input:not([type=hidden])")?.focus();
    } else {
      item.dataset.key = mine + at;
      items[at] = item;
    }
  }
  order(items.filter(Boolean));
  state.todo = state.todo.map((entry) => follow(entry, movement, mine)).filter(Boolean);
}

// Of two that change places the one with the focus stands still.
function order(items) {
  for (const [index, item] of items.entries()) {
    const before = items[index - 1];
    if (!before || before.compareDocumentPosition(item) & Node.DOCUMENT_POSITION_FOLLOWING) continue;
    if (item.contains(document.activeElement)) item.before(before);
    else before.after(item);
  }
}

// What was asked of an item that is gone is asked of nobody.
function follow(entry, movement, mine) {
  if (entry.tap?.key.startsWith(mine)) {
    const at = after(movement, Number(entry.tap.key.slice(mine.length)));
    return at === null ? null : { tap: { ...entry.tap, key: mine + at } };
  }
  const change = entry.change;
  if (change?.list !== movement.list || change.at === undefined) return entry;
  const at = after(movement, change.at);
  if (at === null) return null;
  const moved = { ...change, at };
  if (change.to !== undefined) moved.to = at + change.to - change.at;
  return { ...entry, change: moved };
}
