/**
 * A procedure's steps for its breakdown sheet: what is done, the one thing that matters in it, and the reason; read from the words
 * that the bay shows. Needs folder.js.
 */
(function () {
  "use strict";

  /** @typedef {{number: number, key: string, act: string, does: string, keyPoint: string, why: string, words: string[]}} Row */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** @param {Document} words @param {string} of */
  function textOf(words, of) {
    return words.querySelector(of)?.textContent?.replace(/\s+/g, " ").trim() || "";
  }

  /** @param {any} step what jobs know of it @param {{told: string} | undefined} said what the bay shows @returns {Row} */
  function row(step, said) {
    const words = new DOMParser().parseFromString(said ? said.told : "", "text/html");
    const signals = Array.from(words.querySelectorAll(".signal"), (one) => one.textContent?.replace(/\s+/g, " ").trim() || "");
    return {
      number: step.number, key: step.key, act: step.act, words: signals,
      does: textOf(words, ".do") || step.do, keyPoint: textOf(words, ".key") || step.key_point || "", why: textOf(words, ".why"),
    };
  }

  /** The steps of a procedure by its phases. @param {string} id @returns {Promise<{data: any, phases: {title: string, rows: Row[]}[]}>} */
  async function of(id) {
    await Promise.all([`assets/job/procedure/${id}.js`, `assets/bay/${id}.js`].map((path) => seambook.folder.bring(path)));
    const data = seambook.jobProcedures[id];
    const said = seambook.bayParts[id].steps;
    const phases = data.phases.map((/** @type {string} */ title, /** @type {number} */ at) => ({
      title, rows: data.steps.filter((/** @type {any} */ one) => (one.phase || 0) === at).map((/** @type {any} */ one) => row(one, said[one.key])),
    }));
    return { data, phases: phases.filter((/** @type {any} */ one) => one.rows.length) };
  }

  seambook.breakdown = { of };
})();
