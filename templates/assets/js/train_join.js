/**
 * Two versions of one person's training -> one that has all of both. Rounds, tries and levels are written once and only added
 * to, so all of them stay; where both have the same thing, the one written later stands. Pure.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** A value's text, whichever way its keys are sorted. @param {any} value @returns {string} */
  function textOf(value) {
    if (Array.isArray(value)) return `[${value.map(textOf).join()}]`;
    if (typeof value !== "object" || value === null) return JSON.stringify(value) || "null";
    return `{${Object.keys(value).sort().map((key) => `${JSON.stringify(key)}:${textOf(value[key])}`).join()}}`;
  }

  /** By when they were written; what was written within one second stays as it stood. @param {any} one @param {any} other */
  function byMoment(one, other) {
    const [first, second] = [one.at || one.begun || "", other.at || other.begun || ""];
    return first < second ? -1 : first > second ? 1 : 0;
  }

  /** Both lists without what is in both. @param {any[]} one @param {any[]} other */
  function allOf(one = [], other = []) {
    const found = new Map([...one, ...other].map((entry) => [textOf(entry), entry]));
    return [...found.values()].sort(byMoment);
  }

  /** The names of two mappings, each once. @param {any} one @param {any} other @returns {string[]} */
  function names(one = {}, other = {}) {
    return [...new Set([...Object.keys(one), ...Object.keys(other)])];
  }

  /** Two mappings of lists. @param {any} one @param {any} other */
  function lists(one = {}, other = {}) {
    return Object.fromEntries(names(one, other).map((name) => [name, allOf(one[name], other[name])]));
  }

  /** One round of questions as two tabs have it. @param {any} one @param {any} other */
  function round(one, other) {
    const answers = new Map();
    for (const answer of [...one.answers, ...other.answers]) {
      const before = answers.get(answer.id);
      if (!before || (answer.at || "") > (before.at || "")) answers.set(answer.id, answer);
    }
    return { ...one, ...other, ended: one.ended || other.ended, answers: [...answers.values()] };
  }

  /** @param {any[]} one @param {any[]} other */
  function rounds(one = [], other = []) {
    const found = new Map();
    for (const entry of [...one, ...other]) {
      const name = `${entry.seed} ${entry.begun}`;
      found.set(name, found.has(name) ? round(found.get(name), entry) : entry);
    }
    return [...found.values()].sort(byMoment);
  }

  /** @param {any} one @param {any} other */
  function lessons(one = {}, other = {}) {
    return Object.fromEntries(names(one, other).map((id) => {
      const [first, second] = [one[id] || {}, other[id] || {}];
      return [id, { ...first, ...second, rounds: rounds(first.rounds, second.rounds), tests: lists(first.tests, second.tests) }];
    }));
  }

  /** @param {any} one @param {any} other @returns {any} */
  function join(one, other) {
    const [older, newer] = (one.changed || "") <= (other.changed || "") ? [one, other] : [other, one];
    return { ...older, ...newer, lessons: lessons(older.lessons, newer.lessons), skills: lists(older.skills, newer.skills) };
  }

  seambook.trainJoin = { join, textOf };
})();
