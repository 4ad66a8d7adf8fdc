/**
 * What a dead end of the search teaches: which step has to come after which, so that the next search does not run into it.
 * A lesson may be kept in two ways; the second is tried where the first leads nowhere.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** What no step to come would mend teaches first; then the rest; then a lesson that led nowhere is turned round. @param {Map<string, any[]>} lessons @param {{step: any, reason: any, mended: boolean}[]} blocked @param {Map<string, any>} stepOf */
  function learn(lessons, blocked, stepOf) {
    return [false, true].some((mended) =>
      blocked.filter((one) => one.mended === mended).map((one) => draw(lessons, one, stepOf)).some(Boolean))
      || blocked.some((one) => one.reason.lesson && turn(lessons, one, stepOf));
  }

  /** @param {Map<string, any[]>} lessons @param {{step: any, reason: any}} one @param {Map<string, any>} stepOf */
  function draw(lessons, { step, reason }, stepOf) {
    const before = stepOf.get(reason.by);
    const isNeed = reason.kind === "needs" && !!before && before.spoils.includes(reason.state);
    if (!before || before.chain === step.chain || !(isNeed || reason.kind === "bans")) return false;
    return note(lessons, before, step, { rule: reason.rule, state: reason.state, isNeed });
  }

  /** A step comes after another. @param {Map<string, any[]>} lessons @param {any} later @param {any} first @param {any} told */
  function note(lessons, later, first, told) {
    const known = lessons.get(later.id) || [];
    if (known.some((one) => one.id === first.id)) return false;
    lessons.set(later.id, [...known, { ...told, id: first.id, chain: first.chain, at: first.at, isOff: false }]);
    return true;
  }

  /** A lesson the other way round: in place of spoiling later, the state is made later; in place of making it later, it is ended
   * before. @param {Map<string, any[]>} lessons @param {{step: any, reason: any}} one @param {Map<string, any>} stepOf */
  function turn(lessons, { step, reason }, stepOf) {
    const { lesson } = reason;
    if (lesson.isOff) return false;
    const asker = stepOf.get(lesson.id);
    const told = { rule: lesson.rule, state: lesson.state, isNeed: false };
    const all = [...stepOf.values()];
    const makers = all.filter((one) => one.chain === asker.chain && one.at < asker.at && one.makes.includes(lesson.state));
    const enders = all.filter((one) => one.chain === step.chain && one.at > step.at && one.spoils.includes(lesson.state));
    const isTurned = lesson.isNeed ? makers.length && note(lessons, makers[makers.length - 1], step, told)
      : enders.length && note(lessons, asker, enders[0], told);
    if (!isTurned) return false;
    lesson.isOff = true;
    return true;
  }

  seambook.mergeLessons = { learn };
})();
