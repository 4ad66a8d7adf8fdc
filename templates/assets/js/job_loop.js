/**
 * Why the steps of a job find no order -> said step by step, with the procedures of the book that would undo the knot.
 * Needs job_dom.js, job_rows.js, job_parts.js.
 */
(function () {
  "use strict";

  /** @typedef {{id: string, kind: string, rule: string, state: string, subject: string, side: string, by: string}} Turn */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const { link, record } = seambook.jobParts;
  const { runOf, runTitle } = seambook.jobRows;

  /** The state and whose it is. @param {any} book @param {Turn} one */
  function aboutText(book, { state, subject, side }) {
    const whose = [book.subjects?.[subject] || subject, side].filter(Boolean).join(", ");
    const name = book.states?.[state] || state;
    return name ? `“${name}”${whose ? ` (${whose})` : ""}` : "";
  }

  /** One turn of the loop: which step waits for which, and over what. @param {any} state @param {Turn} one @returns {any[]} */
  function turnOf(state, one) {
    const step = link(state, one.id);
    const other = one.by ? link(state, one.by) : "another step";
    const about = aboutText(state.book, one);
    if (one.kind === "needs") return [step, ` needs ${about}, and `, other, " undoes it, or brings it only later"];
    if (one.kind === "bans") return [step, ` may not be done while ${about} holds, and it holds since `, other];
    if (one.kind === "makes") return [step, ` brings ${about} about. While it holds, `, other, " may not be done, and no step of this job ends it in between"];
    if (one.kind === "spoils") return [step, ` would undo ${about || "what is owed"}, which is still wanted by `, other];
    return [step, " comes after ", other, about ? ` because of ${about}` : ""];
  }

  /** A rule by its name, with its reason. @param {any} book @param {string} id @returns {any[]} */
  function ruleOf(book, id) {
    const rule = book.rules?.[id];
    if (!rule) return ["."];
    return [". ", el("strong", {}, record(rule, id)), ".", rule.because ? el("span", { class: "note", text: ` ${rule.because}` }) : null];
  }

  /** Where a turn leads on to another procedure only because one relies on the other. @param {any} state @param {Turn} one @param {Turn} next @returns {any[]} */
  function between(state, one, next) {
    if (!one.by) return [];
    const [from, to] = [runOf(one.by), runOf(next.id)];
    const relies = state.library[from.procedure]?.relies_on || [];
    if (!relies.includes(to.procedure)) return [];
    return [el("li", {}, `${runTitle(state, one.by)} relies on ${runTitle(state, next.id)} and comes after it.`)];
  }

  /** Procedures that take over from one in the loop, and end the state that it leaves. @param {any} state @param {Turn[]} loop @returns {any[]} */
  function endersOf({ book, job }, loop) {
    const own = new Set(job.runs.map((/** @type {any} */ run) => run.procedure));
    const wanted = loop.filter(({ kind }) => kind === "makes" || kind === "bans");
    return (book.procedures || []).filter((/** @type {any} */ one) => !own.has(one.id) && one.status !== "withdrawn" && wanted.some((turn) => {
      const maker = runOf(turn.kind === "makes" ? turn.id : turn.by).procedure;
      const ends = one.ends.some((/** @type {string[]} */ [name, subject]) => name === turn.state && subject === turn.subject);
      return ends && one.relies_on.includes(maker);
    }));
  }

  /** What is for any panel stands before what is for one of its own. @param {any} one @param {any} other */
  function byReach(one, other) {
    return Number((one.panels || []).length > 0) - Number((other.panels || []).length > 0);
  }

  /** What to do about it. @param {any} state @param {Turn[]} loop @returns {any[]} */
  function wayOut(state, loop) {
    const enders = endersOf(state, loop).sort(byReach);
    const left = [...new Set(loop.map((one) => aboutText(state.book, one)).filter(Boolean))].join(" and ");
    const part = "one of the procedures out, or do it as a job of its own once this one is finished.";
    if (!enders.length) return [el("p", { text: `Take ${part}` })];
    return [
      el("p", { text: `Nothing in this job ends ${left} in time. In this book these do:` }),
      el("ul", { class: "list" }, ...enders.map((one) => el("li", {}, record(one, one.id)))),
      el("p", {}, "Add the one that fits ", el("a", { href: `#job=${encodeURIComponent(state.job.id || "")}&view=make`, text: "where the job is made" }), `. If none does, take ${part}`),
    ];
  }

  /** What contradicts what, and what to do; nothing where all is in order. @param {any} state @returns {any[]} */
  function told(state) {
    /** @type {Turn[]} */
    const loop = state.planned?.merged?.loop || [];
    if (!loop.length) return [];
    const turns = loop.flatMap((one, at) => [
      el("li", {}, ...turnOf(state, one), ...ruleOf(state.book, one.rule)), ...between(state, one, loop[(at + 1) % loop.length]),
    ]);
    return [
      el("p", { text: "These procedures contradict each other: whichever step is done first, another one may not follow." }),
      el("ol", { class: "list" }, ...turns), el("h3", { text: "What to do" }), ...wayOut(state, loop),
    ];
  }

  /** The same in a sentence, for where the job is made. @param {any} planned @returns {string} */
  function inShort(planned) {
    return planned?.merged?.loop?.length ? "The procedures of this job contradict each other, so not all of their steps can be put in order. The plan says which ones, and what to do." : "";
  }

  seambook.jobLoop = { told, inShort };
})();
