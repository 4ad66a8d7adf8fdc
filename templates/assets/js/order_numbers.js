/**
 * Where the numbers of the order of welding stand. Needs strokes.js. The builder's `render/drawings/order_numbers.py`
 * places them the same.
 */

/**
 * @typedef {{turn: number, row: number, x: number, at: number, level: number}} OrderNumber
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { widthOf } = seambook.strokes;
  const [SIZE, LEVEL, LEVELS] = [12, 15, 3];

  /** Room a number takes on its line. @param {number} turn */
  function room(turn) {
    return widthOf(String(turn), SIZE) + 4;
  }

  /** @param {OrderNumber[][]} asked  Of each segment. @param {number} rows @returns {OrderNumber[]} */
  function placed(asked, rows) {
    /** @type {OrderNumber[][][]} */
    const lines = Array.from({ length: rows }, () => Array.from({ length: LEVELS }, () => []));
    const wanted = asked.map(linesNeeded);
    const isFull = asked.map(() => false);
    /** @type {{segment: number, number: OrderNumber}[]} */
    const found = [];
    const ranked = asked.flatMap((numbers, segment) => numbers.map((number) => ({ segment, number })));
    ranked.sort((one, other) => one.number.turn - other.number.turn || one.segment - other.segment);
    for (const { segment, number } of ranked) {
      const own = number.at % wanted[segment];
      const levels = [own, ...Array.from({ length: LEVELS }, (_, level) => level).filter((level) => level !== own)];
      const level = isFull[segment] ? undefined
        : levels.find((one) => lines[number.row][one].every((other) => areClear(number, other)));
      if (level === undefined) {
        isFull[segment] = true;
      } else {
        lines[number.row][level].push(number);
        found.push({ segment, number: { ...number, level } });
      }
    }
    found.sort((one, other) => one.segment - other.segment || one.number.at - other.number.at);
    return found.map(({ number }) => number);
  }

  /** @param {OrderNumber[]} numbers */
  function linesNeeded(numbers) {
    const needed = room(numbers.reduce((most, { turn }) => Math.max(most, turn), 1));
    const isRoomy = numbers.every((one, at) => {
      const next = numbers[at + 1];
      return !next || next.row !== one.row || next.x - one.x >= needed;
    });
    return isRoomy ? 1 : 2;
  }

  /** @param {OrderNumber} one @param {OrderNumber} other */
  function areClear(one, other) {
    return Math.abs(one.x - other.x) >= (room(one.turn) + room(other.turn)) / 2;
  }

  seambook.orderNumbers = { SIZE, LEVEL, room, placed };
})();
