// At the bar: a timer, and a screen that stays awake where the browser allows.

async function wake() {
  try {
    await navigator.wakeLock?.request("screen");
  } catch {
    // The browser says no, as on a low battery; the page works all the same.
  }
}

export function begin() {
  wake();
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && wake());
  for (const button of document.querySelectorAll("[data-timer]")) {
    const whole = Number(button.dataset.timer);
    let end = 0, tick = 0;
    button.hidden = false;
    const show = () => {
      const left = Math.ceil((end - performance.now()) / 1000);
      button.textContent = left > 0 ? `${left} s` : "done";
      if (left <= 0) {
        clearInterval(tick);
        end = 0;
        navigator.vibrate?.([200, 100, 200]);
      }
    };
    button.addEventListener("click", () => {
      clearInterval(tick);
      if (end) {
        end = 0;
        button.textContent = `time ${whole} s`;
        return;
      }
      end = performance.now() + whole * 1000;
      tick = setInterval(show, 100);
      show();
    });
  }
}
