/**
 * The procedures that a lesson asks about, ready to be asked: what each step says, why it is done, where it stands, and
 * what the law says of any order of them. Reads what the pages of jobs and of the bay are told. Pure.
 */

/**
 * @typedef {{text: string, href?: string}} Told  What is said, and where in the book it stands.
 * @typedef {{at: number, key: string, phase: number, do: string, why: string, keyPoint: string, href: string, hazards: string[], act: string,
 *   on: string[], traits: string[]}} AskedStep
 * @typedef {{id: string, title: string, href: string, hazards: string[], steps: AskedStep[], law: LawBook, own: number[],
 *   fresh: (order: number[], isFirstEnough?: boolean) => LawBreach[]}} AskedProcedure
 *   `own` is its own order; `fresh` are the rules that another order breaks and its own does not.
 * @typedef {{procedure: AskedProcedure, isMeant: (step: AskedStep) => boolean}} Asked  With the phases that are meant.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** @type {Map<string, AskedProcedure | null>} */
  const known = new Map();

  /** @param {any} lesson @returns {Asked[]} */
  function of(lesson) {
    return lesson.questions.procedures.flatMap((/** @type {{id: string, phases: number[] | null}} */ { id, phases }) => {
      const procedure = procedureOf(id);
      return procedure ? [{ procedure, isMeant: (/** @type {AskedStep} */ step) => !phases || phases.includes(step.phase) }] : [];
    });
  }

  /** @param {string} id @returns {AskedProcedure | null} */
  function procedureOf(id) {
    const found = known.get(id);
    if (found) return found;
    const data = (seambook.jobProcedures || {})[id];
    const made = data ? read(data, (seambook.bayParts || {})[id]) : null;
    known.set(id, made);
    return made;
  }

  /** @param {any} data @param {any} bay @returns {AskedProcedure} */
  function read(data, bay) {
    const law = seambook.questionLaw.open(data, seambook.training.wide || {});
    const own = data.steps.map((/** @type {any} */ _, /** @type {number} */ at) => at);
    const before = new Set(seambook.questionLaw.judge(law, own).map(nameOf));
    const isFresh = (/** @type {LawBreach} */ breach) => !before.has(nameOf(breach));
    return {
      id: data.id, title: data.title, href: data.path, hazards: data.hazards || [], law, own,
      steps: data.steps.map((/** @type {any} */ step, /** @type {number} */ at) => stepOf(step, at, data, told(bay, step.key))),
      fresh: (order, isFirstEnough) => seambook.questionLaw.judge(law, order, isFirstEnough ? isFresh : undefined).filter(isFresh),
    };
  }

  /** @param {any} bay @param {string} key */
  function told(bay, key) {
    return (bay && bay.steps[key] && bay.steps[key].told) || "";
  }

  /** By what a breach is the same as in another order. @param {LawBreach} breach */
  function nameOf({ sort, rule, at, state }) {
    return `${sort} ${rule} ${at} ${state}`;
  }

  /** @param {any} step @param {number} at @param {any} data @param {string} html @returns {AskedStep} */
  function stepOf(step, at, data, html) {
    return {
      at, key: step.key, phase: step.phase || 0, do: step.do, keyPoint: step.key_point || "", why: textOf(partOf(html, "why")),
      href: `${data.path}#${step.key}`, hazards: step.hazards || [], act: step.act, on: step.on || [], traits: step.traits || [],
    };
  }

  /** A part of what the bay shows of a step. @param {string} html @param {string} name */
  function partOf(html, name) {
    const found = new RegExp(`<div class="${name}">([^]*?)</div>`).exec(html);
    return found ? found[1] : "";
  }

  const ENTITIES = /** @type {Record<string, string>} */ ({ amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'", "#34": '"' });

  /** @param {string} html as the builder writes it */
  function textOf(html) {
    return html.replace(/<[^>]*>/g, "").replace(/&(amp|lt|gt|quot|#39|#34);/g, (_, name) => ENTITIES[name]).replace(/\s+/g, " ").trim();
  }

  /** What a step says for itself behind what is said of it, its way included. @param {string} said @param {AskedStep} step @returns {Told} */
  function reasoned(said, step) {
    const own = step.why || step.keyPoint;
    return { text: own ? `${said} It has its own reason: ${own}` : said, href: step.href };
  }

  /** What a rule says for itself. @param {string} id @returns {Told} */
  function ruleOf(id) {
    const rule = seambook.training.rules[id];
    return rule ? { text: `${rule.title}. ${rule.because}`, href: rule.path } : { text: id };
  }

  /** @type {{text: string, href: string, stem: string, forms: RegExp}[] | null} */
  let index = null;

  /** The book's words, tools and supplies, the longer names first: of a name within another only the whole is meant. @returns {{text: string, href: string, stem: string, forms: RegExp}[]} */
  function indexed() {
    index = index || Object.entries(/** @type {Record<string, string>} */ (seambook.training.words || {}))
      .map(([href, text]) => ({ text, href, stem: text.toLowerCase().replace(/e$/, ""), forms: formsOf(text.toLowerCase()) }))
      .sort((one, other) => other.text.length - one.text.length);
    return index;
  }

  /** A word as it comes in sentences: one or several of it, or done. @param {string} word */
  function formsOf(word) {
    const own = word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    return new RegExp(`\\b(?:${own}(?:s|es|d|ed|ing)?|${own.replace(/e$/, "")}ing)\\b`, "g");
  }

  /** The words of the trade in some texts, in the order in which they come, with the ways to what they mean. @param {string[]} texts @returns {Told[]} */
  function wordsOf(texts) {
    let rest = texts.join(" \n ").toLowerCase();
    /** @type {{at: number, text: string, href: string}[]} */
    const found = [];
    for (const { text, href, stem, forms } of indexed()) {
      const at = rest.includes(stem) ? rest.search(forms) : -1;
      if (at < 0) continue;
      found.push({ at, text, href });
      rest = rest.replace(forms, (said) => " ".repeat(said.length));
    }
    return found.sort((one, other) => one.at - other.at).map(({ text, href }) => ({ text, href }));
  }

  seambook.questionSteps = { of, procedureOf, reasoned, ruleOf, wordsOf };
})();
