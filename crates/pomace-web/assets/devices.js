// The page of the devices, as long as somebody looks at it: a code that was used goes, a device that came is
// there.
import { morph } from "./morph.js";
import { tell } from "./times.js";

const EVERY_MS = 2500;

export function begin(place) {
  let isAsking = false;
  const look = async () => {
    if (document.hidden || isAsking) return;
    isAsking = true;
    try {
      const answer = await fetch("/devices");
      // Whose own device was taken off the list sees so with the next thing pressed.
      if (answer.ok) show(place, await answer.text());
    } catch {
      // The machine does not answer now; it is asked again.
    }
    isAsking = false;
  };
  setInterval(look, EVERY_MS);
  document.addEventListener("visibilitychange", look);
}

function show(place, page) {
  const wanted = new DOMParser().parseFromString(page, "text/html").querySelector("[data-devices]");
  if (!wanted) return;
  tell(wanted);
  morph(place, wanted);
}
