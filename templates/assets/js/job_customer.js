/* The page for the customer: the book's plain words around lists from the job's own record, and what the shop writes itself. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;

  /** What the done steps of these acts were done on, each once, with its side. @param {any} state @param {string[]} acts */
  function worked(state, acts) {
    const rows = seambook.jobRows.of(state).filter((/** @type {JobRow} */ { done, step }) => done && acts.includes(step.act));
    const said = rows.flatMap((/** @type {JobRow} */ { step, side }) => (step.on || []).map((/** @type {string} */ on) => (side ? `${on}, ${side}` : on)));
    return [...new Set(said)];
  }

  /** @param {any} state */
  function measured(state) {
    const rows = seambook.asBuilt.rows(state);
    const { entered, out } = seambook.asBuilt.counts(rows);
    if (!entered) return [];
    const judged = rows.filter((/** @type {AsBuiltRow} */ { found, low, high }) => found !== null && (low !== null || high !== null));
    const within = judged.length - out;
    const first = `${words.counted(entered, "reading")} taken; ${within} of the ${judged.length} with limits ${within === 1 ? "lies" : "lie"} within them.`;
    const others = rows.filter((/** @type {AsBuiltRow} */ { off }) => off).map((/** @type {AsBuiltRow} */ row) =>
      `${row.name}: ${words.number(Number(row.found))} ${row.unit}, wanted ${seambook.jobParts.limits(row)}${row.released ? `. Accepted, because: ${row.released.reason || "no reason given"}` : ""}`);
    const moved = seambook.asBuilt.beforeAndAfter(rows).filter((/** @type {BeforeAndAfter} */ { change }) => change !== null).map((/** @type {BeforeAndAfter} */ group) => {
      const read = group.rows.filter(({ found }) => found !== null);
      return `${group.name}${group.side ? `, ${group.side}` : ""}: ${words.number(Number(read[0].found))} ${group.unit} at the first reading, ${words.number(Number(read[read.length - 1].found))} ${group.unit} at the last`;
    });
    return [first, ...others, ...moved];
  }

  /** @param {any} state */
  function found(state) {
    const said = /** @type {Record<string, string>} */ ({ yes: "you agreed", no: "you declined, and it was left", waiting: "your answer is awaited" });
    return (state.job.findings || []).map((/** @type {any} */ one) =>
      `${[one.where, one.size].filter(Boolean).join(", ")}: ${said[one.answer]}${one.answered ? ` on ${words.said(one.answered)}` : ""}`);
  }

  /** @param {any} state */
  function batches(state) {
    return Object.entries(state.job.batches || {}).map(([id, all]) =>
      `${state.book.supplies?.[id]?.title || id}: ${all.map((/** @type {any} */ one) => one.number).join(", ")}`);
  }

  /** @param {any} state @param {any} part @returns {string[]} */
  function listOf(state, part) {
    if (part.of === "steps") return worked(state, part.acts || []);
    if (part.of === "measures") return measured(state);
    if (part.of === "findings") return found(state);
    if (part.of === "batches") return batches(state);
    return part.of === "looks" ? state.customer.looks.map((/** @type {any} */ one) => `After ${one.after}: ${one.look}`) : [];
  }

  /** A part; on paper one that has nothing to say is left out. @param {any} state @param {any} part @param {boolean} isPaper */
  function block(state, part, isPaper) {
    const items = listOf(state, part);
    const written = state.job.customer_page?.[part.id] || "";
    if (isPaper && !items.length && !written && !part.nothing) return null;
    const list = items.length ? el("ul", { class: "list" }, ...items.map((text) => el("li", { text }))) : null;
    const nothing = !items.length && !(isPaper && written) ? el("p", { text: part.nothing || "Nothing is recorded here yet; on paper this part is left out." , class: part.nothing ? null : "none" }) : null;
    const edit = (/** @type {any} */ job, /** @type {string} */ text) => {
      job.customer_page = { ...job.customer_page, [part.id]: text };
      if (!text.trim()) delete job.customer_page[part.id];
    };
    const own = !part.ask ? null : isPaper ? written.split("\n").filter(Boolean).map((/** @type {string} */ text) => el("p", { text }))
      : entries.field({ id: `customer_${part.id}`, label: part.ask, value: written, rows: 3, edit });
    const means = items.length || part.of === "words" ? el("p", { text: part.means }) : null;
    return el("section", { class: "block customer-part" }, el("h2", { text: part.say }), means, list, part.of === "words" && !isPaper ? null : nothing, own);
  }

  /** A page of a job that still goes on says so, or it would be taken for the last word. @param {any} state */
  function unfinished({ planned, job }) {
    const rows = planned?.rows || [];
    const done = rows.filter((/** @type {any} */ { id }) => job.done?.[id]).length;
    return done < rows.length ? el("p", {}, el("strong", { text: `The work is not finished: ${done} of ${rows.length} steps are done.` })) : null;
  }

  /** @param {any} state @param {boolean} isPaper */
  function head(state, isPaper) {
    const { job } = state;
    const done = Object.values(job.done || {}).map((/** @type {any} */ one) => one.at).sort();
    const rows = [
      ["Job", [job.number, job.title].filter(Boolean).join(" \u00b7 ")], ["Customer", job.customer], ["Car", job.car],
      ["Work", done.length ? `${words.said(done[0])} to ${words.said(done[done.length - 1])}` : ""],
    ].filter(([, text]) => text);
    return [
      isPaper ? el("h2", { class: "traveller-title", text: "Your car" }) : null,
      el("dl", { class: "rows" }, ...rows.map(([label, text]) => el("div", {}, el("dt", { text: label }), el("dd", { text })))), unfinished(state), el("p", { class: "prose", text: state.customer.opening }),
    ];
  }

  /** @param {any} state @param {boolean} isPaper @returns {Node[]} */
  function make(state, isPaper) {
    const parts = state.customer.parts.map((/** @type {any} */ part) => block(state, part, isPaper));
    const signs = isPaper ? el("div", { class: "paper-signs" }, ...["For the shop", "Date"].map((text) => el("span", { class: "box wide", text }))) : null;
    return [...head(state, isPaper), ...parts, el("p", { class: "prose", text: state.customer.closing }), signs].filter(Boolean);
  }

  /** @param {any} given */
  function stateOf(given) {
    const state = seambook.jobParts.here(given);
    return { ...state, customer: state.book.planning?.customer || null };
  }

  /** @param {any} given @returns {Node[]} */
  function paper(given) {
    const state = stateOf(given);
    return state.customer ? make(state, true) : [];
  }

  /** @param {HTMLElement} place @param {any} given */
  function draw(place, given) {
    const state = stateOf(given);
    seambook.jobPaper.head(state.job);
    if (!state.customer) return void entries.redraw(place, state, [el("p", { class: "none", text: "This book has no words for the customer: its planning file says none." })]);
    const note = el("p", { class: "note", text: "This page is printed for the customer. Lists come from what is ticked, read and entered in this job; the fields are yours." });
    entries.redraw(place, state, [el("div", { class: "only-screen" }, note, ...make(state, false)), seambook.jobPaper.place(() => paper(given))]);
  }

  seambook.jobViews = seambook.jobViews || {};
  seambook.jobViews.customer = { title: "For the customer", draw, freshen: entries.freshen, paper };
})();
