/**
 * The questions of a lesson by a seed: one after the other of a sort, or a sheet of all sorts. The same seed gives the
 * same questions from the same records; of a sort none comes twice within a few. Needs all of question_*.js. Pure.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** @typedef {{lesson: any, seed: string, system?: string}} Drawn */

  const SORTS = ["order", "broken", "work", "hazard"];
  const ATTEMPTS = 16;
  /** From so many attempts on, a question that was asked a while ago is taken again; the last one never is. */
  const PATIENT = 10;
  const RECENT = 12;

  /** @type {Record<string, (lesson: any, chance: Chance, system: string) => any>} */
  const makers = {
    order: (lesson, chance) => seambook.questionOrder.make(lesson, chance),
    broken: (lesson, chance) => seambook.questionBroken.make(lesson, chance),
    work: (lesson, chance, system) => seambook.questionWork.make(lesson, chance, system),
    hazard: (lesson, chance) => seambook.questionHazard.make(lesson, chance),
  };

  /** @type {WeakMap<any, Map<string, any[]>>} */
  const known = new WeakMap();

  /** The questions of one sort, as far as they were asked for. @param {Drawn} drawn @param {string} sort @returns {any[]} */
  function series({ lesson, seed, system = "" }, sort) {
    const all = known.get(lesson) || new Map();
    known.set(lesson, all);
    const name = `${sort} ${system} ${seed}`;
    const found = all.get(name) || [];
    all.set(name, found);
    return found;
  }

  /** @param {Drawn} drawn @param {string} sort @param {any[]} before */
  function next({ lesson, seed, system = "" }, sort, before) {
    const recent = before.slice(-RECENT).map(({ id }) => id);
    for (let n = 0; n < ATTEMPTS; n += 1) {
      const chance = seambook.questionChance.of(`${seed} ${lesson.id} ${sort} ${before.length} ${n}`);
      const found = makers[sort](lesson, chance, system);
      if (!found) continue;
      if (!recent.includes(found.id) || (n >= PATIENT && recent[recent.length - 1] !== found.id)) return found;
    }
    return null;
  }

  /** A question of a sort, counted from 0; null where the lesson's records give none, or no other. @param {Drawn & {sort: string, n: number}} drawn */
  function one({ sort, n, ...drawn }) {
    const found = series(drawn, sort);
    while (found.length <= n) {
      const made = next(drawn, sort, found);
      if (!made) return null;
      found.push(made);
    }
    return found[n];
  }

  /** A sheet of questions, all different, the sorts mixed. @param {Drawn & {count?: Record<string, number>}} drawn @returns {any[]} */
  function sheet({ count, ...drawn }) {
    const counts = count || seambook.training.asks;
    const all = new Map(SORTS.flatMap((sort) => several(drawn, sort, counts[sort] || 0)).map((question) => [question.id, question]));
    return seambook.questionChance.of(`${drawn.seed} ${drawn.lesson.id}`).shuffle([...all.values()]);
  }

  /** @param {Drawn} drawn @param {string} sort @param {number} count */
  function several(drawn, sort, count) {
    const found = Array.from({ length: count }, (_, n) => one({ ...drawn, sort, n }));
    return found.filter((question) => question !== null);
  }

  /**
   * @param {any} question @param {any} answer of sort order the ids in order, else the id of a choice or the text typed
   * @returns {{ok: boolean, unread?: boolean, say: Told[]}} `unread` where the text is no answer at all
   */
  function judge(question, answer) {
    if (question.sort === "order") return seambook.questionOrder.judge(question, answer);
    if (!question.choices) return seambook.questionWork.judge(question, answer);
    return { ok: answer === question.right, say: question.explain[answer] || [] };
  }

  seambook.questions = { sheet, one, judge };
})();
