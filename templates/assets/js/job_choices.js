/**
 * Which procedures a job has, and which the book proposes beside them: what they rely on, what follows from them, and
 * those of the panels next to theirs. Knows no page.
 */
(function () {
  "use strict";

  /** @typedef {any} Job */
  /** @typedef {any} Book */
  /** @typedef {{procedure: any, side: string, because: string[]}} Proposed */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const SIDES = ["left", "right"];

  /** @param {Book} book @param {string} id @returns {any} */
  function procedureOf(book, id) {
    return book.procedures.find((/** @type {any} */ one) => one.id === id) || null;
  }

  /** The sides a procedure may be done on. @param {any} procedure @returns {string[]} */
  function sidesOf(procedure) {
    return procedure.handed ? SIDES : [""];
  }

  /** @param {{procedure: string, side: string}} run @returns {string} */
  function nameOf(run) {
    return `${run.procedure}@${run.side}`;
  }

  /** @param {Job} job @param {string} procedure @param {string} side @returns {boolean} */
  function has(job, procedure, side) {
    return job.runs.some((/** @type {any} */ run) => run.procedure === procedure && run.side === side);
  }

  /** Add a procedure to a job, once. @param {Job} job @param {Book} book @param {string} id @param {string} side */
  function add(job, book, id, side) {
    const one = procedureOf(book, id);
    if (!one || has(job, id, side)) return;
    job.runs.push({
      procedure: id, side, revision: one.revision, fingerprint: one.fingerprint, title: one.title, finding: "",
    });
  }

  /** Take a procedure out; what was noted of it stays, and what it shared with others stays theirs.
   * @param {Job} job @param {string} id @param {string} side @param {any} [planned] the job as it is planned with it */
  function remove(job, id, side, planned) {
    seambook.jobKept.handOver(job, planned?.merged?.nodes || [], (/** @type {string} */ step) => step.startsWith(`${id}@${side}#`));
    job.runs = job.runs.filter((/** @type {any} */ run) => run.procedure !== id || run.side !== side);
  }

  /** In the order of the work, then by title. @param {any[]} procedures @returns {any[]} */
  function inOrder(procedures) {
    return [...procedures].sort((one, other) => one.stage_at - other.stage_at || (one.title < other.title ? -1 : 1));
  }

  /** Those that work on a panel; first those that work on few others. @param {Book} book @param {string} panel @returns {any[]} */
  function onPanel(book, panel) {
    const found = inOrder(book.procedures.filter((/** @type {any} */ one) => one.panels.includes(panel)));
    return found.sort((one, other) => one.panels.length - other.panels.length);
  }

  /** @param {string} text @returns {string} */
  function plain(text) {
    return text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  }

  /** Procedures that all words fit, in their title or their panels'; titles first. @param {Book} book @param {string} words @returns {any[]} */
  function byWords(book, words) {
    const wanted = plain(words).split(/\s+/).filter(Boolean);
    if (!wanted.length) return [];
    /** @param {any} one @param {string[]} panels */
    const fits = (one, panels) => {
      const text = plain([one.title, ...panels].join(" "));
      return wanted.every((word) => text.includes(word));
    };
    const all = inOrder(book.procedures);
    const named = all.filter((one) => fits(one, []));
    const onThem = all.filter((one) => !named.includes(one) && fits(one, one.panels.map((/** @type {string} */ id) => titleOf(book, id))));
    return [...named, ...onThem];
  }

  /** @param {Book} book @param {string} panel @returns {string} */
  function titleOf(book, panel) {
    return book.panels[panel] ? book.panels[panel].title : panel;
  }

  /** The side on which one procedure brings another. @param {any} procedure @param {string} side @returns {string[]} */
  function sidesFor(procedure, side) {
    if (!procedure.handed) return [""];
    return side ? [side] : SIDES;
  }

  /**
   * Gather what the runs of a job bring, each once, with the titles of those that bring it.
   * @param {Job} job @param {Book} book @param {(procedure: any) => string[]} brought @returns {Proposed[]}
   */
  function gathered(job, book, brought) {
    /** @type {Map<string, Proposed>} */
    const found = new Map();
    for (const run of job.runs) {
      const one = procedureOf(book, run.procedure);
      for (const id of one ? brought(one) : []) {
        const other = procedureOf(book, id);
        if (!other || other.status === "withdrawn") continue;
        for (const side of sidesFor(other, run.side)) {
          if (has(job, id, side)) continue;
          const known = found.get(`${id}@${side}`) || { procedure: other, side, because: [] };
          if (!known.because.includes(one.title)) known.because.push(one.title);
          found.set(`${id}@${side}`, known);
        }
      }
    }
    const order = inOrder([...found.values()].map((one) => one.procedure)).map((one) => one.id);
    return [...found.values()].sort((one, other) => order.indexOf(one.procedure.id) - order.indexOf(other.procedure.id));
  }

  /** @param {Job} job @param {Book} book @returns {Proposed[]} what must be done before */
  function reliedOn(job, book) {
    return gathered(job, book, (one) => one.relies_on);
  }

  /** @param {Job} job @param {Book} book @returns {Proposed[]} what takes over what is left open */
  function following(job, book) {
    return gathered(job, book, (one) => one.followers);
  }

  /** Work of the same stage, at least half of it on panels beside those of the job. @param {Job} job @param {Book} book @returns {Proposed[]} */
  function beside(job, book) {
    const already = new Set([...reliedOn(job, book), ...following(job, book)].map((one) => one.procedure.id));
    const found = gathered(job, book, (one) => {
      const near = new Set(one.panels.flatMap((/** @type {string} */ id) => (book.panels[id] || { neighbours: [] }).neighbours));
      return book.procedures
        .filter((/** @type {any} */ other) => {
          const count = other.panels.filter((/** @type {string} */ id) => near.has(id)).length;
          return other.stage_at === one.stage_at && count > 0 && 2 * count >= other.panels.length;
        })
        .map((/** @type {any} */ other) => other.id);
    });
    return found.filter((one) => !already.has(one.procedure.id));
  }

  seambook.jobChoices = {
    SIDES, procedureOf, sidesOf, nameOf, has, add, remove, onPanel, byWords, titleOf, inOrder, reliedOn, following, beside,
  };
})();
