/* Parts that the views of a job share: links to steps, dangers, limits of a measure. Needs job_dom.js, job_rows.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const { number } = seambook.jobWords;

  /** A view's state with the procedures by their ids and the way to the book's own folder. @param {any} state */
  function here(state) {
    return { ...state, library: state.library?.procedures || state.library || {}, root: document.body.dataset.root || "" };
  }

  /** @param {string} path */
  function pathTo(path) {
    return seambook.folder.address(path);
  }

  /** A link to a step's page. @param {any} state @param {string} id @param {string} [text] */
  function link(state, id, text) {
    const href = seambook.jobRows.hrefOf(state, id);
    const said = text || seambook.jobRows.named(state, id);
    return href ? el("a", { href, text: said }) : el("span", { text: said });
  }

  /** Ids parted by commas, each with its page. @param {any} state @param {string[]} ids */
  function links(state, ids) {
    return ids.flatMap((id, at) => [at ? ", " : null, link(state, id)]);
  }

  /** A record of the book by its path. @param {{title: string, path?: string} | undefined} record @param {string} otherwise */
  function record(record, otherwise) {
    if (!record) return el("span", { text: otherwise });
    return record.path ? el("a", { href: pathTo(record.path), text: record.title }) : el("span", { text: record.title });
  }

  /** A danger: its word, its name and what to do. @param {any} book @param {string} id */
  function danger(book, id) {
    const hazard = book.hazards?.[id];
    if (!hazard) return null;
    const style = hazard.rank ? `brief signal-${hazard.rank}` : "brief";
    return el("p", { class: style }, el("strong", { text: hazard.say || hazard.signal }), " ", record(hazard, id), `: ${hazard.avoid || hazard.danger || ""}`);
  }

  /** What a measure should be. @param {{low: number | null, high: number | null, unit: string, say?: string}} measure */
  function limits({ low, high, unit: kept, say }) {
    const unit = say || kept;
    const [has, least, most] = [(/** @type {any} */ value) => typeof value === "number", low, high];
    if (has(least) && has(most)) return `${number(Number(least))} to ${number(Number(most))} ${unit}`;
    if (has(least)) return `at least ${number(Number(least))} ${unit}`;
    return has(most) ? `at most ${number(Number(most))} ${unit}` : `no limits, ${unit}`;
  }

  /** A verdict in words, with its sign. @param {AsBuiltRow} row */
  function verdict({ verdict: sort, off, unit, released }) {
    const by = off ? `${off > 0 ? "+" : ""}${number(off)} ${unit}` : "";
    if (sort === "within") return { text: "\u2713 within", style: "is-within" };
    if (sort === "low" || sort === "high") {
      return { text: `\u00d7 ${by} too ${sort}${released ? ", released" : ""}`, style: "is-out" };
    }
    return { text: { noted: "noted", missing: "not entered", gone: "no longer in this book" }[sort] || sort, style: sort === "missing" ? "is-missing" : "is-noted" };
  }

  /** A table with its heads; cells are text, nodes or lists of both. @param {string} label @param {string[]} heads @param {any[]} lines @param {string} [style] */
  function table(label, heads, lines, style) {
    const rows = lines.map(({ cells, about }) =>
      el("tr", about || {}, ...cells.map((/** @type {any} */ cell, /** @type {number} */ at) => el("td", { "data-head": heads[at] }, ...[cell].flat()))));
    return el(
      "div", { class: "scroll", tabindex: "0", role: "region", "aria-label": label },
      el("table", { class: `wordy job-table${style ? ` ${style}` : ""}` }, el("thead", {}, el("tr", {}, ...heads.map((head) => el("th", { scope: "col", text: head })))), el("tbody", {}, ...rows))
    );
  }

  seambook.jobParts = { here, pathTo, link, links, record, danger, limits, verdict, table };
})();
