/**
 * The search box: loads the index when it is first used, and shows what `find.js` finds for the words typed.
 */

(function () {
  "use strict";

  /** @typedef {any} Index */
  /** @typedef {{path: string, kind: string, title: string, anchor: string, heading: string, score: number}} Found */

  const INDEX = "assets/search/index.js";
  const SHOWN = 8;
  const { find, nearWords, unpack } = /** @type {any} */ (window).seambook.search;

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

  /** @param {string[]} near words of the book that could have been meant */
  function nothing(near) {
    const text = document.createElement("p");
    text.className = "none";
    const link = document.createElement("a");
    link.href = `${root}a-z.html`;
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
      list.replaceChildren(found.length ? rows(found) : nothing(nearWords(index, box.value)));
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
