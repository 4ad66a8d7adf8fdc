/* What is to be labelled: panels, tools and supplies of the book, found by typing, and texts of one's own. Needs job_dom.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, labelled } = seambook.dom;

  /** @typedef {{id: string, title: string, path: string, side?: string}} Labelled */
  const MOST_SHOWN = 30;
  const MOST_EACH = 99;
  /** How many of each, by kind, id and side. @type {Map<string, {item: Labelled, count: number}>} */
  const chosen = new Map();

  /** @param {Labelled} item */
  function called(item) {
    return item.side ? `${item.title}, ${item.side}` : item.title;
  }

  /** @param {string} kind @param {Labelled} item */
  function keyOf(kind, item) {
    return [kind.toLowerCase(), item.id, item.side].filter(Boolean).join("-");
  }

  /** @param {string} key @param {Labelled} item @param {number} count @param {() => void} changed */
  function put(key, item, count, changed) {
    if (count > 0) chosen.set(key, { item, count: Math.min(MOST_EACH, Math.floor(count)) });
    else chosen.delete(key);
    changed();
  }

  /** One thing with the number of its labels, by buttons and by typing. @param {string} key @param {Labelled} item @param {() => void} changed */
  function row(key, item, changed) {
    const id = `label_count-${key}`;
    const field = el("input", { id, type: "number", min: 0, max: MOST_EACH, inputmode: "numeric", value: chosen.get(key)?.count || 0 });
    const take = (/** @type {number} */ count) => {
      put(key, item, count, changed);
      field.value = chosen.get(key)?.count || 0;
    };
    field.addEventListener("change", () => take(Number(field.value) || 0));
    const step = (/** @type {string} */ sign, /** @type {number} */ by, /** @type {string} */ say) =>
      el("button", { type: "button", class: "control", "aria-label": `${say}: ${called(item)}`, text: sign, on: { click: () => take((chosen.get(key)?.count || 0) + by) } });
    return el("li", { class: "label-row" }, el("label", { for: id }, called(item), el("span", { class: "note", text: ` ${item.id}` })),
      el("span", { class: "label-count" }, step("\u2212", -1, "One less"), field, step("+", 1, "One more")));
  }

  /** Words typed, all of which a name or an id must hold. @param {string} typed @param {Labelled} item */
  function isFound(typed, item) {
    const said = `${called(item)} ${item.id}`.toLowerCase();
    return typed.toLowerCase().split(/\s+/).every((word) => said.includes(word));
  }

  /** @param {HTMLElement} place @param {string} typed @param {() => void} changed */
  function list(place, typed, changed) {
    const groups = seambook.labels.kinds.map((/** @type {{title: string, items: Labelled[]}} */ { title, items }) => {
      const own = items.map((item) => ({ item, key: keyOf(title, item) }));
      const found = own.filter(({ item, key }) => (typed ? isFound(typed, item) : chosen.has(key)));
      if (!found.length) return null;
      const more = found.length - MOST_SHOWN;
      return el("section", {}, el("h3", { text: title }), el("ul", { class: "list" }, ...found.slice(0, MOST_SHOWN).map(({ item, key }) => row(key, item, changed))),
        more > 0 ? el("p", { class: "note", text: `${more} more: type more of the name.` }) : null);
    }).filter(Boolean);
    const nothing = typed ? "Nothing of that name. Write it as a text of your own below." : "Type a part of a name.";
    place.replaceChildren(...(groups.length ? groups : [el("p", { class: "none", text: nothing })]));
  }

  /** All of a kind, one label each, for whoever labels the whole rack. @param {() => void} changed @param {() => void} redraw */
  function whole(changed, redraw) {
    const every = seambook.labels.kinds.map((/** @type {{title: string, items: Labelled[]}} */ { title, items }) => el("button", {
      type: "button", class: "control", text: `All ${title.toLowerCase()}, ${items.length}`, on: { click: () => {
        for (const item of items) chosen.set(keyOf(title, item), { item, count: 1 });
        changed();
        redraw();
      } },
    }));
    const none = el("button", { type: "button", class: "control", id: "label_none", text: "None", on: { click: () => {
      chosen.clear();
      changed();
      redraw();
    } } });
    return el("p", { class: "job-buttons" }, ...every, none);
  }

  /** @param {() => void} changed @returns {any} */
  function make(changed) {
    const place = el("div", { class: "label-found", role: "region", "aria-label": "Found" });
    const find = el("input", { type: "search", autocomplete: "off" });
    const redraw = () => list(place, find.value.trim(), changed);
    find.addEventListener("input", redraw);
    const own = el("textarea", { rows: 3, class: "label-own" });
    own.addEventListener("input", changed);
    redraw();
    return el("section", { class: "block" }, el("h2", { text: "What is labelled" }),
      labelled("label_find", "Find a panel, a tool or a supply", find, "With nothing typed here, what you have chosen is shown."), place, whole(changed, redraw),
      labelled("label_own", "Texts of your own", own, "One label a line: a job number, a shelf, a part that is not in the book."));
  }

  /** The labels in the order of the book, then those of one's own. @param {string} note @param {(path: string) => string} address */
  function labels(note, address) {
    const field = /** @type {HTMLTextAreaElement | null} */ (document.getElementById("label_own"));
    const own = (field?.value || "").split("\n").map((text) => text.trim()).filter(Boolean);
    const named = Array.from(chosen.values()).flatMap(({ item, count }) =>
      Array.from({ length: count }, () => ({ title: called(item), id: item.id, note, address: address(item.path) })));
    return [...named, ...own.map((title) => ({ title, id: "", note: title === note ? "" : note, address: "" }))];
  }

  seambook.labelChoices = { make, labels };
})();
