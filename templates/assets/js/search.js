/**
 * The search box: loads what searches and the index when it is first used, of that what the words typed need, and shows
 * what `find.js` finds.
 */

(function () {
  "use strict";

  /** @typedef {{path: string, kind: string, title: string, anchor: string, heading: string, isBehind: boolean}} Row */

  const FOLDER = "assets/search/";
  const FINDING = "assets/js/finding.js";
  const SHOWN = 8;
  /** Of what is not to be worked from, at the end of the list: as many as answer as well as what is shown. */
  const SHOWN_BEHIND = 2;
  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { address, bring } = seambook.folder;
  const { headOf, open, shardOfPage } = seambook.shardsOfIndex;

  const form = document.getElementById("page_search");
  const box = document.getElementById("page_search-words");
  const list = document.getElementById("page_search-found");
  const said = document.getElementById("page_search-said");
  if (!(form instanceof HTMLFormElement) || !(box instanceof HTMLInputElement) || !list || !said) return;
  start(form, box, list, said);
  document.getElementById("page_search-instead")?.setAttribute("hidden", "");

  /** Bring a script of the index. @param {string} name */
  function load(name) {
    return bring(`${FOLDER}${name}.js`);
  }

  /** @returns {Promise<SearchIndex>} */
  async function opened() {
    await load("dictionary");
    await bring(FINDING);
    seambook.shards = seambook.shards || {};
    seambook.index = seambook.index || open(seambook.dictionary, seambook.shards);
    return seambook.index;
  }

  /** The pages that answer, and how many there are. @param {string} text */
  async function answers(text) {
    const index = await opened();
    const { find, nearWords, needed } = seambook.search;
    for (let names = needed(index, text); names.length; names = needed(index, text)) await Promise.all(names.map(load));
    const { found: all, count } = find(index, text, SHOWN);
    const best = shown(all);
    await Promise.all(best.map((one) => load(shardOfPage(index, one.page))));
    const found = best.map((one) => {
      const head = headOf(index, one.page);
      const [anchor, heading] = head.parts.slice(2 * one.part, 2 * one.part + 2);
      return { ...head, anchor: anchor, heading: heading, isBehind: one.isBehind };
    });
    return { found: found, count: count, near: count ? [] : nearWords(index, text) };
  }

  /**
   * The best of what may be worked from, and behind them what would stand among them otherwise.
   * @param {Found[]} all
   */
  function shown(all) {
    const first = all.filter((one) => !one.isBehind).slice(0, SHOWN);
    const least = first.length === SHOWN ? first[SHOWN - 1].score : 0;
    return [...first, ...all.filter((one) => one.isBehind && one.score >= least).slice(0, SHOWN_BEHIND)];
  }

  /** @param {Row} found */
  function item(found) {
    const link = document.createElement("a");
    link.href = address(found.path + (found.anchor ? `#${found.anchor}` : ""));
    const title = document.createElement("strong");
    title.textContent = found.title;
    const note = document.createElement("span");
    note.className = "note";
    note.textContent = [found.kind, found.heading === found.title ? "" : found.heading].filter(Boolean).join(": ");
    link.append(title, " ", note);
    const row = document.createElement("li");
    if (found.isBehind) row.className = "behind";
    row.append(link);
    return row;
  }

  /** @param {Row[]} found */
  function rows(found) {
    const list = document.createElement("ol");
    list.append(...found.map(item));
    return list;
  }

  /** @param {string[]} near words of the book that could have been meant */
  function nothing(near) {
    const text = document.createElement("p");
    text.className = "none";
    const link = document.createElement("a");
    link.href = address("a-z.html");
    link.textContent = "look in the A to Z";
    const words = near.length ? `try fewer words, or one of these: ${near.join(", ")}; or ` : "try other words, or ";
    text.append(`Nothing found: ${words}`, link, ".");
    return text;
  }

  /** Move the focus along the box and what was found. @param {HTMLElement[]} stops @param {number} by */
  function move(stops, by) {
    const at = stops.indexOf(/** @type {any} */ (document.activeElement));
    stops[Math.min(Math.max(at + by, 0), stops.length - 1)].focus();
  }

  /** @param {HTMLFormElement} form @param {HTMLInputElement} box @param {HTMLElement} list @param {HTMLElement} said */
  function start(form, box, list, said) {
    function close() {
      list.hidden = true;
      list.replaceChildren();
    }

    function fail() {
      said.textContent = "The search could not be loaded.";
    }

    async function show() {
      const text = box.value;
      said.textContent = "";
      if (!text.trim()) {
        close();
        return;
      }
      const { found, count, near } = await answers(text);
      if (box.value !== text) return; // typed on meanwhile: the next answer is on its way
      list.replaceChildren(found.length ? rows(found) : nothing(near));
      list.hidden = false;
      said.textContent = count === 1 ? "1 page found" : `${count || "No"} pages found`;
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
    box.addEventListener("focus", () => void opened().catch(fail));
    box.addEventListener("input", () => void show().catch(fail));
    form.hidden = false;
  }
})();
