/**
 * The search box: loads the index when it is first used, and shows the pages that hold all words, else some.
 * The index's form is told in builder/search/index.py, its words in builder/search/words.py.
 */

(function () {
  "use strict";

  /** @typedef {{pages: string[][], passages: string[][], words: string[], postings: string[]}} Index */
  /** @typedef {{path: string, kind: string, title: string, anchor: string, heading: string, score: number}} Found */

  const INDEX = "assets/search/index.js";
  const SHOWN = 8;
  const TITLE_WEIGHT = 4;
  const PREFIX_WEIGHT = 0.5;
  /** More than any passage's score: every word found counts before how well it is found. */
  const HELD = 1000;
  const WORD = /[a-z0-9]+(?:[.][0-9]+)?(?:-[a-z0-9]+(?:[.][0-9]+)?)*/g;

  // Without the page.

  /** @param {string} text @returns {string[]} its words, by the builder's own rule */
  function wordsOf(text) {
    const folded = text.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "");
    return (folded.match(WORD) || []).flatMap((word) => {
      const parts = word.split("-");
      return parts.length > 1 ? [...parts, parts.join("")] : parts;
    });
  }

  /** @param {Record<"pages" | "passages" | "words" | "postings", string>} raw @returns {Index} */
  function unpack(raw) {
    const rows = (/** @type {string} */ text) => (text ? text.split("\n") : []);
    return {
      pages: rows(raw.pages).map((row) => row.split("\t")),
      passages: rows(raw.passages).map((row) => row.split("\t")),
      words: rows(raw.words),
      postings: rows(raw.postings),
    };
  }

  /** The first place in a sorted list that is not before the word. @param {string[]} words @param {string} word */
  function placeOf(words, word) {
    let low = 0;
    let high = words.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (words[middle] < word) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /**
   * The passages a word stands in, each with its weight; rarer words weigh more.
   * @param {Index} index @param {string} word @param {boolean} isUnfinished longer words that begin so count too
   */
  function passagesWith(index, word, isUnfinished) {
    /** @type {Map<number, number>} */
    const found = new Map();
    for (let at = placeOf(index.words, word); at < index.words.length; at += 1) {
      const isWhole = index.words[at] === word;
      if (!isWhole && !(isUnfinished && index.words[at].startsWith(word))) break;
      const gaps = index.postings[at].split(" ");
      const rarity = Math.log(1 + index.passages.length / gaps.length) * (isWhole ? 1 : PREFIX_WEIGHT);
      let passage = 0;
      for (const gap of gaps) {
        const isStrong = gap.endsWith("*");
        passage += parseInt(gap, 36);
        const weight = rarity * (isStrong ? TITLE_WEIGHT : 1);
        found.set(passage, Math.max(found.get(passage) || 0, weight));
      }
    }
    return found;
  }

  /** How much of a title was asked for, 0 to 1. @param {string} title @param {string[]} asked */
  function shareOf(title, asked) {
    const named = wordsOf(title);
    return named.filter((word) => asked.includes(word)).length / (named.length || 1);
  }

  /**
   * The best passage of each page, best page first. A page that holds every word stands before one that does not.
   * @param {Index} index @param {string} text @returns {Found[]}
   */
  function find(index, text) {
    const asked = [...new Set(wordsOf(text))];
    const isUnfinished = !/\s$/.test(text);
    /** @type {Map<number, {held: Set<number>, score: number, best: number, passage: number}>} */
    const pages = new Map();
    /** @type {Map<number, number>} */
    const scores = new Map();
    asked.forEach((word, at) => {
      passagesWith(index, word, isUnfinished && at === asked.length - 1).forEach((weight, passage) => {
        const score = (scores.get(passage) || 0) + weight;
        scores.set(passage, score);
        const number = Number(index.passages[passage][0]);
        const page = pages.get(number) || { held: new Set(), score: 0, best: 0, passage };
        page.held.add(at);
        if (score > page.best) Object.assign(page, { best: score, passage });
        pages.set(number, page);
      });
    });
    return [...pages]
      .map(([number, page]) => {
        const [path, kind, title] = index.pages[number];
        const [, anchor, heading] = index.passages[page.passage];
        const score = page.best * (1 + shareOf(title, asked)) + HELD * page.held.size;
        return { path, kind, title, anchor, heading, score };
      })
      .sort((a, b) => b.score - a.score || (a.path < b.path ? -1 : 1));
  }

  // On the page.

  const form = document.getElementById("page_search");
  const box = document.getElementById("page_search-words");
  const list = document.getElementById("page_search-found");
  const said = document.getElementById("page_search-said");
  const root = document.body.dataset.root || "";
  if (!(form instanceof HTMLFormElement) || !(box instanceof HTMLInputElement) || !list || !said) return;
  start(form, box, list, said);
  document.getElementById("page_search-instead")?.setAttribute("hidden", "");

  /** @param {(index: Index | null) => void} done @param {() => void} failed */
  function loadIndex(done, failed) {
    const script = document.createElement("script");
    script.src = root + INDEX;
    script.onload = () => {
      const raw = /** @type {any} */ (window).seambook?.index;
      done(raw ? unpack(raw) : null);
    };
    script.onerror = failed;
    document.head.append(script);
  }

  /** @param {Found} found */
  function item(found) {
    const link = document.createElement("a");
    link.href = root + found.path + (found.anchor ? `#${found.anchor}` : "");
    const title = document.createElement("strong");
    title.textContent = found.title;
    const note = document.createElement("span");
    note.className = "note";
    note.textContent = [found.kind, found.heading === found.title ? "" : found.heading].filter(Boolean).join(": ");
    link.append(title, " ", note);
    const row = document.createElement("li");
    row.append(link);
    return row;
  }

  /** @param {Found[]} found */
  function rows(found) {
    const list = document.createElement("ol");
    list.append(...found.slice(0, SHOWN).map(item));
    return list;
  }

  function nothing() {
    const text = document.createElement("p");
    text.className = "none";
    const link = document.createElement("a");
    link.href = `${root}a-z.html`;
    link.textContent = "Look in the A to Z";
    text.append("Nothing found. ", link, ".");
    return text;
  }

  /** Move the focus along the box and what was found. @param {HTMLElement[]} stops @param {number} by */
  function move(stops, by) {
    const at = stops.indexOf(/** @type {any} */ (document.activeElement));
    stops[Math.min(Math.max(at + by, 0), stops.length - 1)].focus();
  }

  /** @param {HTMLFormElement} form @param {HTMLInputElement} box @param {HTMLElement} list @param {HTMLElement} said */
  function start(form, box, list, said) {
    /** @type {Index | null} */
    let index = null;
    let isAsked = false;

    function load() {
      if (isAsked) return;
      isAsked = true;
      loadIndex(
        (loaded) => {
          index = loaded;
          show();
        },
        () => {
          isAsked = false;
          said.textContent = "The search could not be loaded.";
        }
      );
    }

    function close() {
      list.hidden = true;
      list.replaceChildren();
    }

    function show() {
      if (!box.value.trim() || !index) {
        close();
        said.textContent = "";
        return;
      }
      const found = find(index, box.value);
      list.replaceChildren(found.length ? rows(found) : nothing());
      list.hidden = false;
      said.textContent = found.length === 1 ? "1 page found" : `${found.length || "No"} pages found`;
    }

    form.addEventListener("keydown", (event) => {
      if (event.key === "ArrowDown" || event.key === "ArrowUp") {
        event.preventDefault();
        move([box, ...list.querySelectorAll("a")], event.key === "ArrowDown" ? 1 : -1);
      } else if (event.key === "Escape") {
        close();
        box.focus();
      }
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      list.querySelector("a")?.click();
    });
    document.addEventListener("click", (event) => {
      if (event.target instanceof Node && !form.contains(event.target)) close();
    });
    box.addEventListener("focus", load);
    box.addEventListener("input", () => {
      load();
      show();
    });
    form.hidden = false;
  }
})();
