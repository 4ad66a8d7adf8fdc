/**
 * Questions of the sort "hazard": which danger is in this step, and what protects from it? The words are the hazards'
 * own. A wrong choice is a danger of other work. Pure.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{title: string, path: string, danger: string, avoid: string, consequence: string, protect: string[]}} Hazard
   * @typedef {{asked: Asked, step: AskedStep, id: string}} Met  A danger in a step.
   * @typedef {{form: string, ask: (hazard: Hazard) => string, choice: (hazard: Hazard) => string}} Form
   */

  /** A danger does not end with its step: so many steps on either side are taken to have it too. */
  const AROUND = 2;
  const OTHERS = 3;
  const TRIES = 40;
  /** Words that say nothing of a danger. */
  const SMALL = new Set(["and", "the", "for", "from", "near", "under", "behind", "that", "this", "with", "when", "old", "left", "opened", "vehicle"]);

  /** @type {Form[]} */
  const FORMS = [
    { form: "danger", ask: () => "Which of these dangers does the book name for this step?", choice: ({ title }) => title },
    { form: "avoid", ask: ({ danger }) => `${danger} How do you keep this from harming you or others?`, choice: ({ avoid }) => avoid },
    { form: "protect", ask: ({ danger }) => `${danger} Which of these lists is meant for this danger?`, choice: ({ protect }) => (protect || []).join("; ") },
  ];

  /** @param {any} lesson @param {Chance} chance */
  function make(lesson, chance) {
    const all = metIn(lesson);
    for (let n = 0; n < TRIES && all.length; n += 1) {
      const met = chance.pick(all);
      const form = chance.pick(FORMS);
      const found = question(met, form, othersOf(lesson, met, form, chance), chance);
      if (found) return found;
    }
    return null;
  }

  /** @param {any} lesson @returns {Met[]} */
  function metIn(lesson) {
    return seambook.questionSteps.of(lesson).flatMap((/** @type {Asked} */ asked) =>
      asked.procedure.steps.filter(asked.isMeant).flatMap((step) =>
        step.hazards.filter((id) => seambook.training.hazards[id]).map((id) => ({ asked, step, id }))));
  }

  /** Dangers that are not in a step: not named by it, by its whole procedure, by the steps round it or by any like it, and none that shares a word with these or with the step. @param {any} lesson @param {Met} met @param {Form} form @param {Chance} chance */
  function othersOf(lesson, { asked, step, id }, { choice }, chance) {
    const { hazards } = seambook.training;
    const there = new Set([...asked.procedure.hazards, ...asked.procedure.steps.filter((one) => Math.abs(one.at - step.at) <= AROUND).flatMap((one) => one.hazards)]);
    const all = seambook.questionSteps.of(lesson).flatMap((/** @type {Asked} */ { procedure }) => procedure.steps);
    for (const one of all) if (isLike(one, step)) one.hazards.forEach((/** @type {string} */ name) => there.add(name));
    const said = new Set([...there].filter((name) => hazards[name]).flatMap((name) => wordsOf(`${hazards[name].title} ${hazards[name].danger}`)));
    wordsOf(`${step.do} ${step.keyPoint}`).forEach((word) => said.add(word));
    const elsewhere = new Set(all.flatMap((/** @type {AskedStep} */ one) => one.hazards));
    const free = Object.keys(hazards).filter((name) => !there.has(name) && !wordsOf(hazards[name].title).some((word) => said.has(word)) && choice(hazards[name]) && choice(hazards[name]) !== choice(hazards[id]));
    // Dangers of the same lesson's work are harder to tell from the right one than any of the book.
    return [...chance.shuffle(free.filter((name) => elsewhere.has(name))), ...chance.shuffle(free.filter((name) => !elsewhere.has(name)))].slice(0, OTHERS);
  }

  /** The words that say something, by how they begin. @param {string} text */
  function wordsOf(text) {
    return (text.toLowerCase().match(/[a-z]{3,}/g) || []).filter((word) => !SMALL.has(word)).map((word) => word.slice(0, 4));
  }

  /** @param {AskedStep} one @param {AskedStep} other */
  function isLike(one, other) {
    return one.act === other.act || one.traits.some((trait) => other.traits.includes(trait));
  }

  /** @param {Met} met @param {Form} form @param {string[]} others @param {Chance} chance */
  function question({ asked, step, id }, { form, ask, choice }, others, chance) {
    const { hazards } = seambook.training;
    const ids = [id, ...others];
    if (others.length < OTHERS || !choice(hazards[id]) || new Set(ids.map((one) => choice(hazards[one]))).size < ids.length) return null;
    return {
      id: `hazard:${form}:${asked.procedure.id}:${step.key}:${id}`, sort: "hazard", form, ask: ask(hazards[id]),
      of: { text: asked.procedure.title, href: asked.procedure.href, procedure: asked.procedure.id },
      items: [{ id: step.key, text: step.do, href: step.href }],
      choices: chance.shuffle(ids).map((one) => ({ id: one, text: choice(hazards[one]) })),
      right: id, explain: Object.fromEntries(ids.map((one) => [one, one === id ? rightTold(hazards[id], form) : wrongTold(hazards[one], hazards[id], form)])),
      words: seambook.questionSteps.wordsOf([step.do, ask(hazards[id]), ...ids.map((one) => choice(hazards[one]))]),
    };
  }

  /** @param {Hazard} hazard @param {string} form @returns {Told[]} */
  function rightTold({ title, danger, consequence, avoid, path }, form) {
    const text = form === "danger" ? `${title}: ${danger} ${consequence} ${avoid}` : `${title}: ${consequence} ${avoid}`;
    return [{ text, href: path }];
  }

  /** @param {Hazard} hazard @param {Hazard} right @param {string} form @returns {Told[]} */
  function wrongTold({ title, danger, path }, right, form) {
    const text = form === "danger" ? `The book does not name that danger for this step. ${title}: ${danger}` : `That is for another danger. ${title}: ${danger}`;
    return [{ text, href: path }, ...rightTold(right, form)];
  }

  seambook.questionHazard = { make };
})();
