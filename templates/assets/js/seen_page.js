/**
 * On a procedure's page: marks the steps that were changed since this device last followed it, until each was seen, and says
 * at the revisions which one this device knows. It was followed when its last step was ticked, or when the reader says so.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { el } = seambook.dom;
  const { seen } = seambook;
  const ID = (document.body.dataset.path || "").replace(/^.*\/|\.html$/g, "");
  const table = document.getElementById("part_revisions");
  const steps = document.getElementById("part_steps");
  if (!table || !steps || !ID) return;
  const revision = { number: Number(table.querySelector("[data-issue]")?.getAttribute("data-issue")) || 0, changed: changedIn(table) };
  /** Where the page says which revision this device knows, and what is new at its head. */
  const known = el("div", { class: "known" });
  const summary = el("section", { class: "block changed-summary", id: "part_changed", hidden: true });
  table.append(known);
  steps.before(summary);
  show();

  /** What the table says of steps. @param {Element} place @returns {[number, Record<string, string>][]} */
  function changedIn(place) {
    /** @type {Map<number, Record<string, string>>} */
    const found = new Map();
    for (const item of place.querySelectorAll("[data-step]")) {
      const number = Number(item.getAttribute("data-revision"));
      const what = (item.textContent || "").replace(/^Step \d+: /, "");
      found.set(number, { ...found.get(number), [item.getAttribute("data-step") || ""]: what });
    }
    return [...found];
  }

  /** @param {string} key */
  function numberOf(key) {
    return document.querySelector(`[id="${key}"] > a`)?.textContent || "";
  }

  /** @param {string} key */
  function called(key) {
    return `step ${numberOf(key) || key}`;
  }

  function all() {
    seen.followed(ID, revision.number);
    show();
    document.getElementById("part_revisions")?.querySelector("h2")?.scrollIntoView({ block: "nearest" });
  }

  /** @param {string} key */
  function one(key) {
    seen.seen(ID, key, revision);
    show();
    const next = document.getElementById(key)?.querySelector(":scope > a");
    if (next instanceof HTMLElement) next.focus({ preventScroll: true });
  }

  function show() {
    const kept = seen.read(ID);
    const news = seen.news(kept, revision.changed);
    document.querySelectorAll(".step .changed").forEach((mark) => mark.remove());
    news.forEach((/** @type {any[]} */ changes, /** @type {string} */ key) => {
      const place = document.getElementById(key)?.querySelector(".do");
      place?.before(seambook.seenMark.made(`changed_${key}`, changes, called(key), () => one(key)));
    });
    showSummary(kept, news);
    showKnown(kept);
  }

  /** @param {any} kept @param {Map<string, any[]>} news */
  function showSummary(kept, news) {
    summary.hidden = !news.size;
    if (!kept || !news.size) return summary.replaceChildren();
    const order = (/** @type {string} */ key) => Number(numberOf(key));
    const ways = [...news].sort(([one], [other]) => order(one) - order(other)).map(([key, changes]) =>
      el("li", {}, el("a", { href: `#${key}`, text: called(key).replace(/^s/, "S") }), el("span", { class: "note", text: changes.map(({ what }) => what).join(" ") })));
    return summary.replaceChildren(
      el("h2", { text: "Changed since you last followed this" }),
      el("p", { text: `This device followed revision ${kept.revision}; this is revision ${revision.number}. The steps that are done in another way now are marked until they were seen.` }),
      el("ul", { class: "list to-open" }, ...ways),
      el("button", { type: "button", class: "control", id: "changed_all", text: "I have seen them all", on: { click: all } }));
  }

  /** @param {any} kept */
  function showKnown(kept) {
    const isKnown = !!kept && kept.revision >= revision.number;
    const before = kept ? `This device last followed revision ${kept.revision}.` : "This device has not followed this procedure yet.";
    known.replaceChildren(
      el("p", { class: "note", role: "status", text: isKnown ? `This device knows revision ${revision.number}: what changes after it will be marked here.` : `${before} Once its last step is ticked, later changes are marked.` }),
      isKnown || (kept && !summary.hidden) ? "" : el("button", { type: "button", class: "control", id: "changed_known", text: `I know revision ${revision.number}`, on: { click: all } }));
  }

  document.addEventListener("seambook:ticked", (event) => {
    const { key, isLast } = /** @type {any} */ (event).detail;
    seen.seen(ID, key, revision);
    if (isLast) seen.followed(ID, revision.number);
    show();
  });
  window.addEventListener("storage", (event) => {
    if (event.key === null || event.key.includes(":followed:")) show();
  });
})();
