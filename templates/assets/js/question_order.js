/**
 * Questions of the sort "order": put these steps in order. Right is every order that breaks no rule. Pure.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** So many sets of steps are made of one procedure. */
  const SETS = 24;
  const TRIES = 8;

  /** @param {any} lesson @param {Chance} chance */
  function make(lesson, chance) {
    const all = seambook.questionSteps.of(lesson);
    for (let n = 0; n < TRIES && all.length; n += 1) {
      const asked = chance.pick(all);
      const set = seambook.questionPairs.setOf(asked, chance.below(SETS));
      if (set) return question(asked.procedure, set, chance);
    }
    return null;
  }

  /** @param {AskedProcedure} procedure @param {Ordered} set @param {Chance} chance */
  function question(procedure, { places, keeps }, chance) {
    const steps = places.map((at) => procedure.steps[at]);
    const key = (/** @type {number} */ at) => procedure.steps[at].key;
    const kept = keeps.map(({ before, after, rule }) => ({ before: key(before), after: key(after), rule }));
    return {
      id: `order:${procedure.id}:${steps.map((step) => step.key).join(",")}`, sort: "order", form: "order",
      ask: "Put these steps in an order that breaks no rule.",
      note: "More than one order may be right. Steps of the procedure that are not shown stay where they are.",
      of: { text: procedure.title, href: procedure.href, procedure: procedure.id },
      items: mixed(steps, kept, chance).map((step) => ({ id: step.key, text: step.do, href: step.href })),
      right: steps.map((step) => step.key), keeps: kept,
      explain: { whole: keeps.flatMap((keep) => toldOf(procedure, keep)) },
      words: seambook.questionSteps.wordsOf(steps.map((step) => step.do)),
    };
  }

  /** The steps in an order that is not right. @param {AskedStep[]} steps @param {{before: string, after: string}[]} keeps @param {Chance} chance */
  function mixed(steps, keeps, chance) {
    const shown = chance.shuffle(steps);
    const place = (/** @type {string} */ key) => shown.findIndex((step) => step.key === key);
    return keeps.some(({ before, after }) => place(before) > place(after)) ? shown : shown.reverse();
  }

  /** Why a step stays before another. @param {AskedProcedure} procedure @param {Keep} keep @returns {Told[]} */
  function toldOf({ steps }, { before, after, rule }) {
    return [
      { text: `“${steps[before].do}” comes before “${steps[after].do}”`, href: steps[before].href },
      seambook.questionSteps.ruleOf(rule),
    ];
  }

  /** @param {any} question @param {string[]} answer keys of the steps @returns {{ok: boolean, say: Told[]}} */
  function judge(question, answer) {
    const isWhole = answer.length === question.right.length && question.right.every((/** @type {string} */ key) => answer.includes(key));
    if (!isWhole) return { ok: false, say: [{ text: "Put every step into the order, each once." }] };
    const place = (/** @type {string} */ key) => answer.indexOf(key);
    const say = question.keeps.flatMap((/** @type {any} */ { before, after }, /** @type {number} */ n) =>
      (place(before) > place(after) ? question.explain.whole.slice(2 * n, 2 * n + 2) : []));
    if (say.length) return { ok: false, say };
    const isOwn = question.right.every((/** @type {string} */ key, /** @type {number} */ n) => answer[n] === key);
    return { ok: true, say: isOwn ? [] : [{ text: `No rule minds this order either. The procedure does it so: ${ownOrder(question)}`, href: question.of.href }] };
  }

  /** @param {any} question */
  function ownOrder({ items, right }) {
    const text = (/** @type {string} */ key) => items.find((/** @type {any} */ item) => item.id === key).text;
    return right.map((/** @type {string} */ key, /** @type {number} */ n) => `${n + 1}. ${text(key)}`).join(" ");
  }

  seambook.questionOrder = { make, judge };
})();
