/* The whole job on paper: which of its sheets, and the button that prints them. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  seambook.jobViews = seambook.jobViews || {};
  /** @type {Record<string, any>} */
  const views = seambook.jobViews;

  /** @type {{id: string, say: string, note: string, style?: string, make: (state: any) => Node[]}[]} */
  const PARTS = [
    { id: "plan", say: "Plan", note: "Timeline and times", make: (state) => views.plan.paper(state) },
    { id: "steps", say: "Traveller", note: "All steps in order, with boxes for ticks, initials and readings", make: (state) => seambook.jobTraveller.make(state, seambook.jobRows.of(state)) },
    { id: "take-off", say: "Take-off", note: "Supplies, parts, tools, people and sums", make: (state) => views["take-off"].paper(state) },
    { id: "as-built", say: "As-built sheet", note: "The record that stays with the car", make: (state) => views["as-built"].paper(state) },
    { id: "customer", say: "Page for the customer", note: "In plain words", make: (state) => views.customer.paper(state) },
    { id: "strips", say: "Marking strips", note: "Landscape, at 100 percent, not fitted to the page", style: "job-strips", make: (state) => seambook.jobStrips.sheets(state) },
  ];
  /** What is not to be printed. @type {Set<string>} */
  const left = new Set(["customer"]);

  /** @param {any} state */
  function choices(state) {
    return el("ul", { class: "list job-print-parts" }, ...PARTS.map(({ id, say, note }) => {
      const box = el("input", { id: `print_${id}`, type: "checkbox", checked: !left.has(id) });
      box.addEventListener("change", () => (box.checked ? left.delete(id) : left.add(id)));
      return el("li", {}, el("label", { class: "job-check", for: `print_${id}` }, box, el("span", {}, say, el("span", { class: "note", text: note }))), id === "strips" ? strips(state) : null);
    }));
  }

  /** The strips by name, each with its own page. @param {any} state */
  function strips(state) {
    const place = el("div", { class: "job-strip-links", role: "status" }, el("p", { class: "note", text: "Looking for the strips\u2026" }));
    seambook.jobStrips.ready(state).then(() => {
      const all = seambook.jobStrips.strips(state);
      const items = all.map((/** @type {any} */ one) => el("li", {}, el("a", { href: seambook.jobParts.pathTo(one.path), text: `${one.seam}, ${one.methodTitle}` })));
      place.replaceChildren(items.length ? el("ul", { class: "list" }, ...items) : el("p", { class: "note", text: "No seam of this job has a strip." }));
    });
    return place;
  }

  /** @param {any} state @returns {Node[]} */
  function paper(state) {
    return PARTS.filter(({ id }) => !left.has(id)).map(({ id, style, make }) => {
      const made = make(state);
      return made.length ? el("section", { class: `paper-part${style ? ` ${style}` : ""}`, id: `paper_${id}` }, ...made) : null;
    }).filter(Boolean);
  }

  /** @param {HTMLElement} place @param {any} given */
  function draw(place, given) {
    const state = { ...seambook.jobParts.here(given), given };
    seambook.jobPaper.head(state.job);
    if (!seambook.jobRows.of(state).length) return void seambook.jobEntries.redraw(place, state, [el("p", { class: "none", text: "There is nothing to print yet. Choose procedures first." })]);
    const print = async () => {
      await seambook.jobStrips.ready(state);
      window.print();
    };
    const button = el("button", { type: "button", class: "primary", id: "print_all", text: "Print the whole job", on: { click: print } });
    const screen = el("div", { class: "only-screen" }, el("section", { class: "block" }, el("h2", { text: "What to print" }), choices(state), button,
      el("p", { class: "note", text: "Each view prints by itself, too: open it and print the page." })));
    seambook.jobEntries.redraw(place, state, [screen, seambook.jobPaper.place(() => paper(state), "whole-job")]);
  }

  views.print = { title: "Print", draw, freshen: seambook.jobEntries.freshen };
})();
