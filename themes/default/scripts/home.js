// The front page on another day than it was made: the parts of this device's today and tomorrow are shown, and called so.
// Without this script the days of the edition are shown, each with its date.
"use strict";
(() => {
  const days = [...document.querySelectorAll("section[data-day]")];
  if (!days.length) return;
  const DAY = 24 * 60 * 60_000;

  // A date of this device as it stands in the page; noon, so that no change of clocks moves it to another day.
  function iso(at) {
    const noon = new Date(at).setHours(12, 0, 0, 0), on = new Date(noon);
    const two = (n) => String(n).padStart(2, "0");
    return `${on.getFullYear()}-${two(on.getMonth() + 1)}-${two(on.getDate())}`;
  }

  function show() {
    const noon = new Date().setHours(12, 0, 0, 0), today = iso(noon), tomorrow = iso(noon + DAY);
    if (today > days[days.length - 1].dataset.day) return;
    const soon = days.filter((day) => [today, tomorrow].includes(day.dataset.day));
    const busy = (day) => day.querySelector("input");
    const next = soon.some(busy) ? null : days.find((day) => day.dataset.day > tomorrow && busy(day));
    for (const day of days) {
      const word = { [today]: "today", [tomorrow]: "tomorrow" }[day.dataset.day] || (day === next ? "next" : "");
      const heading = day.querySelector("h2"), said = day.dataset[word] || day.dataset.plain;
      day.hidden = !word;
      if (heading.textContent !== said) heading.textContent = said;
      const listed = document.querySelector(`.contents a[href="#${heading.id}"]`);
      if (listed) listed.parentElement.hidden = !word;
    }
  }

  // After the ticks of the page are back: they go by the headings as they were made.
  document.addEventListener("DOMContentLoaded", show);
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") show(); });
})();
