// Ticks stay on this device: which boxes of a page are ticked is kept under the page's address, line by line.
// Where the browser keeps nothing, the boxes work for as long as the page is open.
"use strict";
(() => {
  const boxes = [...document.querySelectorAll("main input[type=checkbox]")];
  if (!boxes.length) return;
  const key = `ticks ${location.pathname}`;

  // A line goes by its words and the heading above it: a new edition of the page keeps the ticks of lines that stayed,
  // and the same line on another day is another line.
  const heads = [...document.querySelectorAll("main h2, main h3, main caption, main .group th")];
  const above = (box) => heads.filter((head) => head.compareDocumentPosition(box) & 4).pop();
  const words = (element) => (element ? element.textContent.trim().replace(/\s+/g, " ") : "");
  const seen = new Map();
  const lines = boxes.map((box) => {
    const line = [words(above(box)), words(box.closest("tr, li")), box.getAttribute("aria-label") || ""].join(" / ");
    seen.set(line, (seen.get(line) || 0) + 1);
    return `${line} / ${seen.get(line)}`;
  });

  function kept() {
    try { return JSON.parse(localStorage.getItem(key)) || []; } catch { return []; }
  }
  function keep() {
    const ticked = lines.filter((_, n) => boxes[n].checked);
    untick.hidden = !ticked.length;
    try {
      if (ticked.length) localStorage.setItem(key, JSON.stringify(ticked));
      else localStorage.removeItem(key);
    } catch { /* The browser keeps nothing. */ }
  }

  const untick = document.querySelector("[data-untick]") || document.createElement("button");
  const before = new Set(kept());
  boxes.forEach((box, n) => {
    // A reload may bring back the browser's own memory of the form; what was kept counts.
    box.checked = before.has(lines[n]);
    box.addEventListener("change", keep);
  });
  untick.addEventListener("click", () => {
    for (const box of boxes) box.checked = false;
    keep();
    boxes[0].focus();
  });
  keep();
})();
