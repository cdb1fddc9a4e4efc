// For the counter: a button that keeps the screen on while the page is seen, where the browser can.
// Screen Wake Lock API (W3C): the browser lets go whenever the page is hidden, so it is asked again.
"use strict";
(() => {
  const button = document.querySelector("[data-awake]");
  if (!button || !navigator.wakeLock) return;
  let lock = null, wanted = false;

  async function hold() {
    try {
      lock = await navigator.wakeLock.request("screen");
      if (!wanted) release();
    } catch {
      // Refused, for instance on a low battery: the button says that it is off.
      wanted = document.visibilityState === "hidden" && wanted;
    }
    button.setAttribute("aria-pressed", String(wanted));
  }
  function release() {
    if (lock) lock.release();
    lock = null;
  }

  button.hidden = false;
  button.addEventListener("click", () => {
    wanted = !wanted;
    button.setAttribute("aria-pressed", String(wanted));
    if (wanted) hold();
    else release();
  });
  document.addEventListener("visibilitychange", () => {
    if (wanted && document.visibilityState === "visible") hold();
  });
})();
