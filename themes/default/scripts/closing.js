// A form whose answers stay on this device and are saved as a file, without a server. What is written is kept under the
// form's name at once; where the browser keeps nothing, it is there for as long as the page is open.
"use strict";
(() => {
  const form = document.querySelector("form.answers");
  if (!form) return;
  const { dataset } = form;
  const key = `${dataset.id} ${location.pathname}`;
  const fields = [...form.querySelectorAll("[name]")];
  const [save, clear] = ["save", "clear"].map((name) => form.querySelector(`[data-${name}]`));
  const say = form.querySelector(".form-end + [role=status]");
  const text = form.querySelector("[data-text]");

  // ---- what is written ----
  const parts = { "¼": 0.25, "½": 0.5, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875 };
  const NUMBER = /^(?:(\d+(?:\.\d+)?)|(?:(\d+)[ ]+)?(\d+)[ ]*\/[ ]*([1-9]\d*)|(\d*)[ ]*([¼½¾⅓⅔⅛⅜⅝⅞]))$/;
  const written = (field) => field.value.trim().replace(/[^\S\n]+/g, " ");
  // A comma between figures is the decimal point of half the world's keyboards.
  const plain = (field) => written(field).replace(/^(\d+),(\d{1,2}|\d{4,})$/, "$1.$2").replace(/ ?g$/i, "");

  function number(words) {
    const found = NUMBER.exec(words);
    if (!found) return null;
    const [, whole, before, above, below, left, part] = found;
    if (whole) return Number(whole);
    return part ? Number(left || 0) + parts[part] : Number(before || 0) + above / below;
  }
  function isWrong(field) {
    const { kind } = field.dataset;
    if (!written(field)) return false;
    if (kind === "minutes") return !/^\d+$/.test(written(field));
    return ["number", "grams"].includes(kind) && number(plain(field)) === null;
  }

  function check(field) {
    field.toggleAttribute("aria-invalid", false);
    if (isWrong(field)) field.setAttribute("aria-invalid", "true");
    const group = field.closest("fieldset");
    if (group) add(group);
  }
  // Eaten, left, frozen and thrown away are together no more than was made.
  function add(group) {
    const [made, ...gone] = [...group.querySelectorAll("[data-kind=number]")].map((field) => number(plain(field)));
    const over = gone.reduce((sum, one) => sum + (one || 0), 0) - (made === null ? Number(group.dataset.most) : made);
    const words = over > 1e-6 ? dataset.over.replace("{}", String(Math.round(over * 100) / 100)) : "";
    const line = group.querySelector("[role=status]");
    if (line.textContent !== words) line.textContent = words;
  }

  // ---- kept ----
  function kept() {
    try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; }
  }
  function keep() {
    const found = Object.fromEntries(fields.filter((field) => field.value).map((field) => [field.name, field.value]));
    text.hidden = true;
    clear.hidden = !Object.keys(found).length;
    try {
      if (clear.hidden) localStorage.removeItem(key);
      else localStorage.setItem(key, JSON.stringify(found));
      say.textContent = clear.hidden ? "" : dataset.kept;
    } catch { say.textContent = dataset.notKept; }
  }

  // ---- the file ----
  // A name is a dish or a session, a point, and what is asked about it; or what is asked about the week.
  function answers() {
    const made = { week: dataset.about, dishes: [], sessions: [] };
    const rows = new Map();
    for (const field of fields) {
      if (!written(field)) continue;
      const at = field.name.lastIndexOf(".");
      const [of, what] = at < 0 ? ["", field.name] : [field.name.slice(0, at), field.name.slice(at + 1)];
      if (what === "substitution") {
        made.substitutions = written(field).split("\n").map((line) => line.trim()).filter(Boolean);
      } else if (!of) made[what] = written(field);
      else {
        if (!rows.has(of)) {
          const [on, clock] = of.split("T");
          rows.set(of, what === "minutes" ? (clock ? { on, at: clock } : { on }) : { dish: of });
          made[what === "minutes" ? "sessions" : "dishes"].push(rows.get(of));
        }
        rows.get(of)[what] = value(field);
      }
    }
    return made;
  }
  function value(field) {
    const { kind } = field.dataset;
    if (kind === "minutes") return Number(written(field));
    if (kind === "grams") return `${plain(field)} g`;
    return kind === "number" ? plain(field) : written(field);
  }

  function name(field) {
    const legend = field.closest("fieldset")?.querySelector("legend");
    return [legend?.firstChild.textContent.trim(), field.parentElement.textContent.trim()].filter(Boolean).join(", ");
  }
  function saved() {
    const wrong = fields.filter(isWrong);
    if (wrong.length) {
      say.textContent = dataset.wrong.replace("{}", wrong.map((field) => `${name(field)} (${dataset.wrongOne})`).join("; "));
      wrong[0].focus();
      return;
    }
    const words = `${JSON.stringify(answers(), null, 1)}\n`;
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([words], { type: "application/json" }));
    link.download = dataset.file;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    text.hidden = false;
    text.querySelector("textarea").value = words;
    say.textContent = dataset.saved.replace("{}", dataset.file);
  }

  // Everything written is gone only when it is asked for twice.
  const clearing = clear.textContent;
  const calm = () => { clear.textContent = clearing; };
  clear.addEventListener("click", () => {
    if (clear.textContent === clearing) {
      clear.textContent = dataset.sure;
      return;
    }
    calm();
    for (const field of fields) {
      field.value = "";
      check(field);
    }
    keep();
    fields[0].focus();
  });
  clear.addEventListener("blur", calm);

  const before = kept();
  for (const field of fields) {
    // A reload may bring back the browser's own memory of the form; what was kept counts.
    field.value = before[field.name] || "";
    check(field);
    field.addEventListener("input", () => { check(field); keep(); });
  }
  keep();
  save.hidden = false;
  save.addEventListener("click", saved);
  form.addEventListener("submit", (event) => event.preventDefault());
})();
