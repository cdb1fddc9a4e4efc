// The site's search; without it the lists are whole and no box is shown. The index is loaded when somebody first goes
// to the box, as a script, which is what a page opened from a folder may load.
"use strict";
(() => {
  const MOST_SHOWN = 12;
  const SHORTEST_STEM = 3;
  const letters = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const split = (text) => letters(text).match(/[\p{L}\p{N}]+/gu) || [];

  // ---- finding ----

  // The index as it is searched: pages in order, and each word with the titles and the keywords it stands in.
  function opened(index) {
    const pages = [], words = new Map();
    const phrases = index.phrases.split("\t").map((text) => ({ text, words: split(text), pages: [] }));
    const entry = (word) => {
      if (!words.has(word)) words.set(word, { word, stem: stem(word, index.words.endings), titles: [], phrases: [] });
      return words.get(word);
    };
    for (const [kind, folder, end, rows] of index.groups) {
      for (const row of rows.split("\n")) {
        const [title, name, steps] = row.split("\t");
        const path = folder + (name || letters(title).replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "")) + end;
        const page = { title, kind, path, words: split(title), phrases: [] };
        let at = 0;
        for (const step of steps ? steps.split(",") : []) {
          at += parseInt(step, 36);
          page.phrases.push(phrases[at]);
          phrases[at].pages.push(pages.length);
        }
        for (const word of page.words) entry(word).titles.push(pages.length);
        pages.push(page);
      }
    }
    for (const phrase of phrases) for (const word of phrase.words) entry(word).phrases.push(phrase);
    return { pages, words, list: [...words.values()], said: index.words };
  }

  // A word without its ending and without a doubled letter there: chopped, chopping and chop become one.
  function stem(word, endings) {
    const ending = endings.find((e) => word.endsWith(e) && word.length - e.length >= SHORTEST_STEM);
    return (ending ? word.slice(0, -ending.length) : word).replace(/(\p{L})\1$/u, "$1");
  }

  // Words that are the one typed, another form of it, or begin with it: each with how well it fits.
  function direct(index, typed) {
    const root = stem(typed, index.said.endings), hits = new Map();
    for (const entry of index.list) {
      if (entry.word === typed) hits.set(entry, 1);
      else if (entry.stem === root) hits.set(entry, 0.9);
      else if (entry.word.startsWith(typed)) hits.set(entry, 0.6 + 0.2 * typed.length / entry.word.length);
    }
    return hits;
  }

  // Words that the one typed may be a mistake for: one letter wrong from four letters on, two from eight on.
  function near(index, typed) {
    const most = typed.length < 4 ? 0 : typed.length < 8 ? 1 : 2, hits = new Map();
    if (!most) return hits;
    for (const entry of index.list) {
      if (entry.word.length < typed.length - most) continue;
      const wrong = mistakes(typed, entry.word, most);
      if (wrong <= most) hits.set(entry, 0.5 - 0.12 * wrong);
    }
    return hits;
  }

  // Letters to change, add, leave out or exchange with the next so that `typed` begins `word`: the distance of optimal
  // string alignment, the least over all beginnings of the word. Given up above `most`.
  function mistakes(typed, word, most) {
    const width = Math.min(word.length, typed.length + most);
    let before = null, last = Array.from({ length: width + 1 }, (_, j) => j);
    for (let i = 1; i <= typed.length; i++) {
      const row = [i];
      let least = i;
      for (let j = 1; j <= width; j++) {
        let n = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (typed[i - 1] === word[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && typed[i - 1] === word[j - 2] && typed[i - 2] === word[j - 1]) {
          n = Math.min(n, before[j - 2] + 1);
        }
        row.push(n);
        if (n < least) least = n;
      }
      if (least > most) return least;
      before = last;
      last = row;
    }
    return Math.min(...last);
  }

  // How well each page fits: a word of the title counts for more, of a short title for most.
  function scores(index, hits) {
    const found = new Map();
    const raise = (page, score) => { if (score > (found.get(page) || 0)) found.set(page, score); };
    for (const [entry, fit] of hits) {
      for (const page of entry.titles) raise(page, fit * (2 + 1 / index.pages[page].words.length));
      for (const phrase of entry.phrases) for (const page of phrase.pages) raise(page, fit);
    }
    return found;
  }

  // Pages that have every word typed, the best first; when none has, those that have the most of them.
  function find(index, text) {
    const all = [...new Set(split(text))];
    const telling = all.filter((word) => !index.said.passedOver.includes(word));
    const typed = telling.length ? telling : all;
    const tried = (look) => {
      const hits = typed.map(look), total = new Map();
      for (const one of hits) {
        for (const [page, score] of scores(index, one)) {
          const sum = total.get(page) || { page, words: 0, score: 0 };
          sum.words += 1;
          sum.score += score;
          total.set(page, sum);
        }
      }
      const best = [...total.values()].sort((a, b) => b.words - a.words || b.score - a.score || a.page - b.page);
      const found = best.filter((one) => one.words === best[0].words);
      const some = !found.length || found[0].words < typed.length;
      return { hits, some, found: found.map((one) => index.pages[one.page]) };
    };
    const first = tried((word) => { const hits = direct(index, word); return hits.size ? hits : near(index, word); });
    if (!first.some) return first;
    const second = tried((word) => new Map([...near(index, word), ...direct(index, word)]));
    return second.some ? first : second;
  }

  // The keyword by which a page was found, when its title does not say it; `words`: of each one typed, those it hits.
  function because(page, words) {
    for (const one of words) {
      const fits = (word) => one.has(word);
      if (page.words.some(fits)) continue;
      const phrase = page.phrases.find((each) => each.words.some(fits));
      if (phrase) return phrase.text;
    }
    return "";
  }

  // ---- the box ----

  const box = document.querySelector("[data-search]");
  if (!box) return;
  const input = box.querySelector("input"), list = box.querySelector("ul"), status = box.querySelector("[role=status]");
  const root = box.dataset.root;
  let index = null, script = null, saying = 0;

  function load() {
    if (script) return;
    script = document.createElement("script");
    script.src = root + box.dataset.search;
    script.onload = () => { index = opened(self.siteIndex); show(); };
    document.head.append(script);
  }

  function line(page, words) {
    const [item, link, title, note] = ["li", "a", "span", "small"].map((name) => document.createElement(name));
    link.href = root + page.path.split("/").map(encodeURIComponent).join("/");
    title.textContent = page.title;
    note.textContent = [page.kind, because(page, words)].filter(Boolean).join(" · ");
    link.append(title, " ", note);
    item.append(link);
    return item;
  }

  function show() {
    if (!index) return;
    if (!split(input.value).length) return close();
    const { found, hits, some } = find(index, input.value), { said } = index;
    const shown = found.slice(0, MOST_SHOWN);
    const words = hits.map((one) => new Set([...one.keys()].map((entry) => entry.word)));
    list.replaceChildren(...shown.map((page) => line(page, words)));
    const counted = found.length > shown.length
      ? said.more.replace("{found}", found.length).replace("{shown}", shown.length)
      : found.length === 1 ? said.one : found.length ? said.many.replace("{}", found.length) : said.none;
    say(some && found.length ? `${said.some} ${counted}` : counted);
    box.classList.add("open");
  }

  // Said once the typing rests, not at every letter.
  function say(words) {
    clearTimeout(saying);
    saying = setTimeout(() => { status.textContent = words; }, status.textContent ? 300 : 0);
  }

  function close() {
    clearTimeout(saying);
    list.replaceChildren();
    status.textContent = "";
    box.classList.remove("open");
  }

  // Arrow keys go through the box and the links below it; on a link, Enter is the browser's own.
  function keys(event) {
    const stops = [input, ...list.querySelectorAll("a")], at = stops.indexOf(document.activeElement);
    const to = { ArrowDown: at + 1, ArrowUp: at - 1 }[event.key];
    if (event.key === "Escape") {
      input.focus();
      close();
    } else if (event.key === "Enter" && at === 0) {
      if (stops[1]) location.href = stops[1].href;
    } else if (to !== undefined) {
      if (at === 0 && !list.children.length) show();
      else (stops[to] || stops[at]).focus();
    } else {
      return;
    }
    event.preventDefault();
  }

  box.hidden = false;
  input.addEventListener("focus", load);
  input.addEventListener("input", () => { load(); show(); });
  box.addEventListener("keydown", keys);
  box.addEventListener("focusout", (event) => { if (!box.contains(event.relatedTarget)) close(); });
})();
