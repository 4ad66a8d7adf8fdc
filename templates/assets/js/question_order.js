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
    const items = mixed(steps, kept, chance).map((step) => ({ id: step.key, text: step.do, href: step.href }));
    return {
      id: `order:${procedure.id}:${steps.map((step) => step.key).join(",")}`, sort: "order", form: "order",
      ask: "Put these steps in an order that breaks no rule.",
      note: "More than one order may be right. Steps of the procedure that are not shown stay where they are.",
      of: { text: procedure.title, href: procedure.href, procedure: procedure.id },
      items, right: steps.map((step) => step.key), keeps: kept, explain: { whole: toldOf(items, kept) },
      words: seambook.questionSteps.wordsOf(steps.map((step) => step.do)),
    };
  }

  /** The steps in an order that is not right. @param {AskedStep[]} steps @param {{before: string, after: string}[]} keeps @param {Chance} chance */
  function mixed(steps, keeps, chance) {
    const shown = chance.shuffle(steps);
    const place = (/** @type {string} */ key) => shown.findIndex((step) => step.key === key);
    return keeps.some(({ before, after }) => place(before) > place(after)) ? shown : shown.reverse();
  }

  /** Why steps stay before others: by each rule which ones, and then its reason. @param {{id: string, text: string, href: string}[]} items @param {{before: string, after: string, rule: string}[]} keeps @returns {Told[]} */
  function toldOf(items, keeps) {
    const item = (/** @type {string} */ id) => /** @type {{text: string, href: string}} */ (items.find((one) => one.id === id));
    return [...new Set(keeps.map(({ rule }) => rule))].flatMap((rule) => [
      ...keeps.filter((keep) => keep.rule === rule).map(({ before, after }) =>
        ({ text: `“${item(before).text}” comes before “${item(after).text}”`, href: item(before).href })),
      seambook.questionSteps.ruleOf(rule),
    ]);
  }

  /** @param {any} question @param {string[]} answer keys of the steps @returns {{ok: boolean, say: Told[]}} */
  function judge(question, answer) {
    const isWhole = answer.length === question.right.length && question.right.every((/** @type {string} */ key) => answer.includes(key));
    if (!isWhole) return { ok: false, say: [{ text: "Put every step into the order, each once." }] };
    const place = (/** @type {string} */ key) => answer.indexOf(key);
    const wrong = question.keeps.filter((/** @type {any} */ { before, after }) => place(before) > place(after));
    if (wrong.length) return { ok: false, say: toldOf(question.items, wrong) };
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
