// What every page does; a page works without it too.
import { watchFields } from "./find.js";
import { tell } from "./times.js";

const root = document.documentElement;
const looks = [...document.querySelectorAll("[data-look]")];
const prefersDim = matchMedia("(prefers-color-scheme:dark)");

// Says which look is on: the one that was chosen, else the one that the device likes.
const showLook = () => {
  const chosen = ["light", "dim"].find((look) => root.classList.contains(look));
  const isOn = chosen ?? (prefersDim.matches ? "dim" : "light");
  for (const button of looks) button.setAttribute("aria-pressed", String(button.dataset.look === isOn));
};
prefersDim.addEventListener("change", showLook);
showLook();
for (const button of looks) {
  button.addEventListener("click", () => {
    root.classList.remove("light", "dim");
    root.classList.add(button.dataset.look);
    try {
      localStorage.setItem("pomace:look", button.dataset.look);
    } catch {
      // Chosen for this page only.
    }
    showLook();
  });
}
watchFields(document);
tell(document);
if (document.querySelector("[data-live]")) import("./live.js").then(({ begin }) => begin());
if (document.querySelector("[data-bar]")) import("./bar.js").then(({ begin }) => begin());
const devices = document.querySelector("[data-devices]");
if (devices) import("./devices.js").then(({ begin }) => begin(devices));
