/**
 * The order of marks as an answer says it, as the turn of each mark. The builder's `view/turns.py` means the same.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const MOST = 1000;

  /** Read `1, 12; 6; 3, 9` as marks in the order they are made; return the turn of each, 0 where none is told. Of
   * several runs of numbers the longest counts. @param {string} order @returns {number[]} */
  function turnsOf(order) {
    const runs = (order.match(/[0-9]+(?:\s*[,;]\s*[0-9]+)+/g) || []).map((run) => run.split(/[^0-9]+/).map(Number));
    const marks = runs.reduce((longest, run) => (run.length > longest.length ? run : longest), []);
    const last = Math.max(...marks);
    if (!marks.length || Math.min(...marks) < 1 || last > MOST) return [];
    const turns = Array.from({ length: last }, () => 0);
    marks.forEach((mark, turn) => (turns[mark - 1] = turns[mark - 1] || turn + 1));
    return turns;
  }

  seambook.turnsOf = turnsOf;
})();
