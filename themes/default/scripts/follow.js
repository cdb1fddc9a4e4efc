// The run sheet on a phone: it follows the clock on the day of the session, or from when somebody begins it. A line that
// is ticked is done; what comes too late then moves everything that waits for it. Kept on this device, without a server.
// Without this script the sheet is whole as it is printed.
"use strict";
(() => {
  const panel = document.querySelector("[data-follow]");
  const tables = [...document.querySelectorAll("table")].filter((table) => table.querySelector("tr[data-start]"));
  if (!panel || !tables.length) return;
  const say = JSON.parse(panel.dataset.follow);
  const MINUTE = 60_000, DAY = 24 * 60 * MINUTE, HEATING = 10 * MINUTE;
  const KEPT_DAYS = 21, REFRESH = 10_000;

  // ---- what is planned ----

  // One session: its tasks in the order of the table, which is the order of time.
  function sheet(table) {
    const tasks = [...table.querySelectorAll("tr[data-start]")].map((row, n) => ({
      n, row, id: row.dataset.task, box: row.querySelector("input[type=checkbox]"), clock: row.querySelector("td.time"),
      at: Date.parse(row.dataset.start), takes: 1000 * Number(row.dataset.seconds),
      after: row.dataset.after ? row.dataset.after.split(" ").map((each) => Number(each) - 1) : [],
      keeps: row.dataset.keeps ? row.dataset.keeps.split("|") : [], heat: row.dataset.heat || "",
      words: row.dataset.words, printed: row.querySelector("td.time").textContent.trim(),
    }));
    for (const task of tasks) task.waits = waits(task, tasks);
    const begins = Math.min(...tasks.map((task) => task.at));
    const ends = Math.max(...tasks.map((task) => task.at + task.takes));
    return { table, tasks, begins, ends, key: `run ${location.pathname} ${tasks[0].row.dataset.start}` };
  }

  // What a task waits for: the steps before it, and whatever is done before it with what it keeps. An oven that changes
  // its temperature takes its time between.
  function waits(task, tasks) {
    const found = task.after.map((n) => [n, 0]);
    for (const other of tasks) {
      const gap = task.at - (other.at + other.takes);
      if (other === task || gap < 0 || (gap === 0 && other.n > task.n)) continue;
      for (const piece of task.keeps) {
        if (!other.keeps.includes(piece)) continue;
        const heats = piece.startsWith("oven") && other.heat !== task.heat;
        found.push([other.n, heats ? Math.min(gap, HEATING) : 0]);
      }
    }
    return found;
  }

  // ---- what is kept on this device ----

  function kept(key) {
    try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; }
  }
  function keep(one) {
    const empty = !one.begun && !Object.keys(one.done).length;
    try {
      if (empty) localStorage.removeItem(one.key);
      else localStorage.setItem(one.key, JSON.stringify({ begun: one.begun, since: one.since, done: one.done }));
    } catch { /* The browser keeps nothing. */ }
  }
  function forget() {
    try {
      for (const key of Object.keys(localStorage)) {
        const day = key.startsWith("run ") ? Date.parse(key.split(" ").pop()) : NaN;
        if (day < Date.now() - KEPT_DAYS * DAY) localStorage.removeItem(key);
      }
    } catch { /* The browser keeps nothing. */ }
  }

  // ---- what is to be expected ----

  const date = (at) => new Date(at).toDateString();
  const isDone = (task) => Boolean(task.box && task.box.checked);
  const isLive = (one) => Boolean(one.begun) || one.tasks.some(isDone);
  const isOn = (one, now) => Boolean(one.begun) || date(now) === date(one.begins)
    || (now >= one.begins && now <= one.ends + 60 * MINUTE);

  // When each task starts and ends: never before it is planned (counted from when the session was begun, where somebody
  // said so), never before what it waits for. As long as nothing is ticked nothing moves: the sheet says what is planned
  // for this minute. From the first tick on, what is not ticked is not over; what was over before went as planned.
  function expect(one, now) {
    const later = one.begun ? one.begun - one.begins : 0;
    const first = isLive(one) ? one.begun || one.since || one.begins : Infinity;
    for (const task of one.tasks) {
      task.starts = task.at + later;
      for (const [n, gap] of task.waits) task.starts = Math.max(task.starts, one.tasks[n].ends + gap);
      task.ends = task.starts + task.takes;
      if (isDone(task)) task.ends = one.done[task.id] || task.ends;
      else if (task.starts <= now && task.ends > first) task.ends = Math.max(task.ends, now + 1);
      task.over = isDone(task) || task.ends <= now;
    }
    const end = Math.max(...one.tasks.map((task) => task.ends));
    return { end, late: Math.round((end - one.ends - later) / MINUTE) };
  }

  const running = (task, now) => task.starts <= now && !task.over;

  // The household's clock, told from the printed times: a device set to another zone shows the same hours.
  function clock(one, at) {
    const [hours, minutes] = one.tasks[0].printed.split(":").map(Number);
    const whole = ((hours * 60 + minutes + Math.floor((at - one.tasks[0].at) / MINUTE)) % 1440 + 1440) % 1440;
    return `${String(Math.floor(whole / 60)).padStart(2, "0")}:${String(whole % 60).padStart(2, "0")}`;
  }

  // ---- what is shown ----

  const filled = (words, values) => words.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const put = (element, text) => { if (element.textContent !== text) element.textContent = text; };
  function made(name, parent, kind) {
    const element = document.createElement(name);
    if (kind) element.className = kind;
    parent.append(element);
    return element;
  }

  const lead = made("p", panel, "clock"), list = made("ul", panel), next = made("p", panel, "next");
  const begin = made("button", panel), status = made("p", panel, "status");
  begin.type = "button";
  begin.textContent = say.begin;
  status.setAttribute("role", "status");
  const line = document.createElement("tr");
  line.className = "clock";
  const cell = made("td", line);

  function rows(one, now) {
    for (const task of one.tasks) {
      const on = running(task, now), moved = Math.abs(task.starts - task.at) >= MINUTE && !isDone(task);
      task.row.classList.toggle("done", isDone(task));
      task.row.classList.toggle("running", on);
      if (on) task.row.setAttribute("aria-current", "step");
      else task.row.removeAttribute("aria-current");
      put(task.clock, moved ? filled(say.moved, { now: clock(one, task.starts), printed: task.printed }) : task.printed);
    }
    const first = one.tasks.find((task) => !isDone(task) && task.starts > now);
    put(cell, filled(say.line, { clock: clock(one, now) }));
    cell.colSpan = one.table.querySelectorAll("col").length;
    const before = first ? first.row : null, body = one.tasks[one.tasks.length - 1].row.parentNode;
    if (line.parentNode !== body || line.nextElementSibling !== before) body.insertBefore(line, before);
  }

  // The tasks that go on now, each with a button that ticks it; built anew only when they are others.
  function lines(one, on) {
    const mark = on.map((task) => task.id).join("|");
    if (list.dataset.mark !== mark) {
      const focused = list.contains(document.activeElement);
      list.dataset.mark = mark;
      list.replaceChildren();
      for (const task of on) {
        const item = made("li", list), button = made("button", item);
        button.type = "button";
        button.textContent = say.done;
        button.setAttribute("aria-label", `${say.done}: ${task.words}`);
        button.addEventListener("click", () => tick(one, task));
        made("span", item).textContent = task.words;
        task.until = made("small", item);
      }
      // The line that had the focus is gone: the next one takes it, so that the keyboard stays here.
      if (focused) (list.querySelector("button") || begin).focus();
    }
    list.hidden = !on.length;
  }

  function show() {
    const now = Date.now();
    const one = sheets.find((each) => isOn(each, now) && !each.tasks.every(isDone)) ||
      sheets.find((each) => isOn(each, now));
    current = one || sheets.find((each) => each.begins > now) || sheets[sheets.length - 1];
    panel.hidden = false;
    begin.hidden = isLive(current);
    for (const part of [lead, list, next]) part.hidden = !one;
    if (!one) return line.remove();
    const { end, late } = expect(one, now);
    rows(one, now);
    const on = one.tasks.filter((task) => running(task, now));
    lines(one, on);
    for (const task of on) {
      const over = Math.floor((now - task.starts - task.takes) / MINUTE);
      put(task.until, over > 0 ? filled(say.over, { minutes: over }) : filled(say.until, { clock: clock(one, task.ends) }));
    }
    const over = isLive(one) && one.tasks.every((task) => task.over);
    const said = [clock(one, now), over ? say.over_all : filled(say.ready, { clock: clock(one, end) })];
    if (late > 0 && !over) said.push(filled(say.late, { minutes: late }));
    put(lead, said.join(" · "));
    const coming = one.tasks.filter((task) => !isDone(task) && task.starts > now);
    const first = Math.min(...coming.map((task) => task.starts));
    const names = coming.filter((task) => task.starts === first).map((task) => task.words);
    put(next, coming.length ? filled(say.next, { clock: clock(one, first), tasks: names.join("; ") }) : "");
    next.hidden = !coming.length;
    announce(on, late);
  }

  // Said politely when other tasks go on than before, with what is new; not at every minute.
  let told = null;
  function announce(on, late) {
    const ids = on.map((task) => task.id), before = told;
    told = ids;
    if (before === null || before.join() === ids.join()) return;
    const fresh = on.filter((task) => !before.includes(task.id)).map((task) => task.words).join("; ");
    const said = [fresh ? filled(say.now, { tasks: fresh }) : "", next.hidden ? "" : next.textContent];
    put(status, [...said, late > 0 ? filled(say.late, { minutes: late }) : ""].filter(Boolean).join(". "));
  }

  // ---- what is done ----

  function tick(one, task) {
    task.box.checked = true;
    task.box.dispatchEvent(new Event("change", { bubbles: true }));
  }

  // What a ticked task waits for by its recipe is done too, at the latest now.
  function changed(one, task) {
    const now = Date.now();
    if (isDone(task)) {
      one.since = one.since || now;
      one.done[task.id] = one.done[task.id] || now;
      for (const other of task.after.map((n) => one.tasks[n])) {
        if (isDone(other)) continue;
        one.done[other.id] = Math.min(now, other.ends);
        tick(one, other);
      }
    } else {
      delete one.done[task.id];
      if (!one.tasks.some(isDone)) one.since = null;
    }
    keep(one);
    show();
  }

  const sheets = tables.map(sheet);
  let current = sheets[0];
  forget();
  for (const one of sheets) {
    const old = kept(one.key);
    one.begun = old.begun || null;
    one.since = old.since || null;
    one.done = old.done || {};
    for (const task of one.tasks) if (task.box) task.box.addEventListener("change", () => changed(one, task));
  }
  begin.addEventListener("click", () => {
    current.begun = Date.now();
    keep(current);
    show();
    (list.querySelector("button") || begin).focus();
  });
  const untick = document.querySelector("[data-untick]");
  if (untick) {
    untick.addEventListener("click", () => setTimeout(() => {
      for (const one of sheets) {
        one.begun = one.since = null;
        one.done = {};
        keep(one);
      }
      show();
    }));
  }
  // After the ticks of the page are back, which another script sees to.
  document.addEventListener("DOMContentLoaded", show);
  if (document.readyState === "complete") show();
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") show(); });
  setInterval(show, REFRESH);
})();
