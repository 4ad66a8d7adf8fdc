/**
 * How a person stands: at a lesson, whose questions and practical tests are all to be passed; at a skill; and on a path. What a
 * record said when something was passed is kept with it, so that a record that was changed since opens it again. Pure.
 */
(function () {
  "use strict";

  /** @typedef {{ref: string, title: string, path: string, fingerprint: string, revision: number | null}} Rests */
  /** @typedef {{fingerprint: string, revision: number | null, title: string}} Stood */
  /** @typedef {{title: string, path: string, say: string}} Changed */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** What is kept of the records that something rests on. @param {Rests[]} rests @returns {Record<string, Stood>} */
  function against(rests) {
    return Object.fromEntries(rests.map(({ ref, fingerprint, revision, title }) => [ref, { fingerprint, revision, title }]));
  }

  /** @param {Rests} now @param {Stood | undefined} then @param {string} was what was done then: passed, given @returns {string} */
  function sayChange({ title, revision }, then, was) {
    if (!then) return `“${title}” is new here; it was not asked for when this was ${was}.`;
    if (revision && then.revision && revision !== then.revision) return `“${title}” is at revision ${revision}; this was ${was} at revision ${then.revision}.`;
    return revision ? `“${title}” was changed since this was ${was}, and is still at revision ${revision}.` : `“${title}” was changed since this was ${was}.`;
  }

  /** What was changed since. @param {Rests[]} rests @param {Record<string, Stood>} kept @param {string} was @returns {Changed[]} */
  function changes(rests, kept, was) {
    const changed = rests.filter(({ ref, fingerprint }) => kept?.[ref]?.fingerprint !== fingerprint);
    return changed.map((now) => ({ title: now.title, path: now.path, say: sayChange(now, kept?.[now.ref], was) }));
  }

  /** The right answers of a round. @param {any} round @returns {number} */
  function rightOf(round) {
    return round.answers.filter((/** @type {any} */ one) => one.ok).length;
  }

  /** @param {any} round @param {number} pass in percent */
  function isPassed(round, pass) {
    return !!round.ended && round.asked > 0 && rightOf(round) * 100 >= pass * round.asked;
  }

  /** The questions of a lesson. @param {any} done @param {any} lesson @param {number} pass */
  function questions(done, lesson, pass) {
    const rounds = done?.rounds || [];
    const last = rounds[rounds.length - 1] || null;
    const passed = [...rounds].reverse().find((/** @type {any} */ one) => isPassed(one, pass)) || null;
    const changed = passed ? changes(lesson.stands_on, passed.against, "passed") : [];
    return { last, passed, changed, isPassed: !!passed && !changed.length };
  }

  /** Whether two tries were judged by the same records. @param {any} one @param {any} other */
  function isAlike(one, other) {
    const prints = (/** @type {any} */ { against: kept }) => Object.entries(kept || {}).map(([ref, { fingerprint }]) => `${ref} ${fingerprint}`).sort().join();
    return prints(one) === prints(other);
  }

  /** A practical test: passed by as many tries in a row as it asks for. @param {any[]} tries @param {any} test @param {any} lesson */
  function test(tries = [], { times = 1 }, lesson) {
    let [row, passed] = [0, /** @type {any} */ (null)];
    tries.forEach((one, at) => {
      row = !one.passed ? 0 : row && isAlike(one, tries[at - 1]) ? row + 1 : 1;
      if (row >= times) passed = one;
    });
    const changed = passed ? changes(lesson.stands_on, passed.against, "passed") : [];
    const last = tries[tries.length - 1] || null;
    const isStale = row > 0 && changes(lesson.stands_on, last.against, "passed").length > 0;
    return { last, passed, changed, row: isStale ? 0 : Math.min(row, times), isPassed: !!passed && !changed.length };
  }

  /** What a lesson asks of somebody, and how they stand at it. @param {any} person @param {any} lesson @param {any} book */
  function atLesson(person, lesson, book) {
    const done = person?.lessons[lesson.id];
    const asks = seambook.trainStand.hasQuestions(lesson) ? questions(done, lesson, book.pass) : null;
    const tests = lesson.practical.map((/** @type {any} */ one) => ({ test: one, ...test(done?.tests[one.key], one, lesson) }));
    const parts = [...(asks ? [asks] : []), ...tests];
    const changed = new Map(parts.flatMap((one) => one.changed).map((/** @type {Changed} */ one) => [one.path, one]));
    return {
      questions: asks, tests, changed: [...changed.values()],
      isBegun: !!done && (done.rounds.length > 0 || Object.keys(done.tests).length > 0),
      isPassed: parts.length > 0 && parts.every((one) => one.isPassed), wasPassed: parts.length > 0 && parts.every((one) => !!one.passed),
    };
  }

  /** Whether a lesson asks anything. @param {any} lesson */
  function hasQuestions({ questions: asked }) {
    return !!asked && (asked.procedures.length > 0 || asked.calculators.length > 0);
  }

  /** The level of a skill that was given last, and whether what the skill stands on was changed since. @param {any} person @param {any} skill */
  function atSkill(person, skill) {
    const all = person.skills[skill.id] || [];
    const last = all[all.length - 1];
    if (!last || !last.level) return { given: null, changed: /** @type {Changed[]} */ ([]), all };
    return { given: last, changed: changes(skill.stands_on, last.against, "given"), all };
  }

  /** Skills of a person that a changed record opened again. @param {any} person @param {any} book */
  function reopened(person, book) {
    return book.skills.map((/** @type {any} */ skill) => ({ skill, ...atSkill(person, skill) })).filter((/** @type {any} */ one) => one.changed.length);
  }

  seambook.trainStand = { against, changes, rightOf, isPassed, atLesson, atSkill, reopened, hasQuestions };
})();
