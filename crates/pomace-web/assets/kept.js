// What is not yet on the server's disk is kept on this device. Each page has a copy of its own, so two pages
// of one document never write over each other's; what a page left that is gone is moved into another's.

const ANSWERS_MS = 200;

export const token = () => [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");

const own = token();
const prefix = (id) => `pomace:doc:${id}:`;
const here = new Set();
let channel;

// Begins to answer other pages of this document, and to hear what they tell.
export function meet(id, hear) {
  try {
    channel = new BroadcastChannel(prefix(id));
  } catch {
    return;
  }
  channel.addEventListener("message", ({ data }) => {
    if (data.who) channel.postMessage({ here: own });
    else if (data.here) here.add(data.here);
    else hear(data);
  });
}

export const tell = (what) => channel?.postMessage(what);

// Tells whether it could be kept: a full or forbidden storage is said, not hidden.
export function keep(id, copy) {
  try {
    localStorage.setItem(prefix(id) + own, JSON.stringify(copy));
    return true;
  } catch {
    return false;
  }
}

export function drop(id) {
  try {
    localStorage.removeItem(prefix(id) + own);
  } catch {
    // Where nothing may be kept, nothing was.
  }
}

// Copies of other pages, the oldest first.
function others(id) {
  const found = [];
  try {
    for (let at = 0; at < localStorage.length; at++) {
      const key = localStorage.key(at);
      if (!key.startsWith(prefix(id)) || key.endsWith(own)) continue;
      const raw = localStorage.getItem(key);
      found.push({ key, raw, page: key.slice(prefix(id).length), copy: JSON.parse(raw) });
    }
  } catch {
    // What cannot be read stays where it is.
  }
  return found.sort((a, b) => a.copy.when - b.copy.when);
}

// Copies whose pages are gone: a page that is still open says so. One that sleeps cannot, and loses nothing
// by it, since it has in mind what it had kept.
export async function left(id) {
  const found = others(id);
  if (!found.length || !channel) return found;
  channel.postMessage({ who: own });
  await new Promise((done) => setTimeout(done, ANSWERS_MS));
  return found.filter((one) => !here.has(one.page));
}

// Whether a copy is still as it was found.
export function isThere({ key, raw }) {
  return localStorage.getItem(key) === raw;
}

// It is in another page's copy now.
export function moved(one) {
  if (isThere(one)) localStorage.removeItem(one.key);
}
