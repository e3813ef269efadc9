// The line to the server: it may be cut, and it may fall silent without a word.
import { read } from "./answer.js";
import { mark, say, unsay } from "./notices.js";
import { state } from "./state.js";

const LONGEST_WAIT_MS = 12000;
// So long a silence is told of.
const LATE_MS = 2000;

// What is refused without a word of ours: by a newer server, or by something on the way.
const STRANGE = { fault: "The book does not take this", mend: "Load this page again" };

let wait = 0, timer = 0, isSilent = false, again;

// What is done when it is time to try once more.
export function watch(retry) {
  again = retry;
  addEventListener("online", atOnce);
}

export const isCut = () => isSilent;
export const isWaiting = () => timer !== 0;

export function atOnce() {
  rest();
  again();
}

function rest() {
  wait = 0;
  clearTimeout(timer);
  timer = 0;
}

// What the server answers; null where nobody does, or not in time.
export async function post(what, body, { patience, isLeaving, late }) {
  const silence = new AbortController();
  const end = setTimeout(() => silence.abort(), patience);
  const soon = setTimeout(() => {
    sayCut("No answer yet.");
    late?.();
  }, LATE_MS);
  try {
    const sent = JSON.stringify(body);
    const answer = await fetch(`/d/${state.id}/${what}`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: sent,
      signal: silence.signal,
      // Browsers let 64 KiB outlive a page.
      keepalive: isLeaving === true && sent.length < 60000,
    });
    const told = answer.ok ? await read(answer) : await answer.json().catch(() => STRANGE);
    reached();
    return { status: answer.status, isGood: answer.ok, ...told };
  } catch {
    unreached();
    return null;
  } finally {
    clearTimeout(end);
    clearTimeout(soon);
  }
}

function reached() {
  isSilent = false;
  rest();
  unsay("offline");
}

function unreached() {
  isSilent = true;
  sayCut();
  waitLonger();
}

export function sayCut(sentence = "No connection.") {
  const count = state.todo.length;
  const waiting = count === 0 ? "" : count === 1 ? " One change waits." : ` ${count} changes wait.`;
  say("offline", sentence, `What you enter is kept on this device and sent when it is back.${waiting}`);
  mark("not kept yet");
}

export function waitLonger() {
  if (isWaiting()) return;
  wait = Math.min(LONGEST_WAIT_MS, (wait || 500) * 2);
  timer = setTimeout(() => {
    timer = 0;
    again();
  }, wait);
}
