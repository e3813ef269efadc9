// What every page does; a page works without it too.
import { watchFields } from "./find.js";
import { tell } from "./times.js";

for (const button of document.querySelectorAll("[data-look]")) {
  button.addEventListener("click", () => {
    const root = document.documentElement;
    root.classList.remove("light", "dim");
    root.classList.add(button.dataset.look);
    try {
      localStorage.setItem("pomace:look", button.dataset.look);
    } catch {
      // Chosen for this page only.
    }
  });
}
watchFields(document);
tell(document);
if (document.querySelector("[data-live]")) import("./live.js").then(({ begin }) => begin());
if (document.querySelector("[data-bar]")) import("./bar.js").then(({ begin }) => begin());
const devices = document.querySelector("[data-devices]");
if (devices) import("./devices.js").then(({ begin }) => begin(devices));
