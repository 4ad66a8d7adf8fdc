/**
 * What emitted formulas call, as `F`: arithmetic that says why it has no answer, and look-ups that never guess past a
 * table's end. Needs numbers.js. The builder's `formula/meanings.py` and `formula/lookup.py` mean the same.
 */

/**
 * @typedef {{name: string, match: string, unit: Unit | null}} Key
 * @typedef {{keys: Key[], order: number[], columns: Record<string, Array<number | string | null>>,
 *   rows: Array<Array<number | string>>}} Table
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { exact, fromBase, plain, toFloat } = seambook.numbers;

  const NEAR_WHOLE = 1e-9;
  const SAME = 1e-9;
  const OUTSIDE = "outside the table";
  const MOST_MARKS = 400;

  /** Stands where a formula has no answer; thrown within a formula, kept as its value. */
  class NoAnswer {
    /** @param {string} why */
    constructor(why) {
      this.why = why;
    }
  }

  // Arithmetic.

  /** @param {string} why @returns {never} */
  function unanswered(why) {
    throw new NoAnswer(why);
  }

  /** @param {number} value */
  function finite(value) {
    return Number.isFinite(value) ? value : unanswered("the number is too large");
  }

  /** @param {number} value */
  function floor(value) {
    const nearest = Math.floor(value + 0.5) + 0;
    const near = Math.abs(value - nearest) <= NEAR_WHOLE * Math.max(1, Math.abs(value));
    return near ? nearest : Math.floor(value) + 0;
  }

  /** Work a formula out; no answer is returned as the value it is. @param {() => any} work */
  function settled(work) {
    try {
      return work();
    } catch (found) {
      if (found instanceof NoAnswer) {
        return found;
      }
      throw found;
    }
  }

  /** Take a value up into a formula; no answer goes on through it. @param {any} value */
  function of(value) {
    if (value instanceof NoAnswer) {
      throw value;
    }
    return value;
  }

  /** False decides `and`, true decides `or`, though the other side has no answer.
   * @param {boolean} decisive @returns {(left: () => boolean, right: () => boolean) => boolean} */
  function logic(decisive) {
    return function (left, right) {
      const first = settled(left);
      if (first === decisive) {
        return decisive;
      }
      const second = settled(right);
      if (second === decisive) {
        return decisive;
      }
      of(first);
      return of(second);
    };
  }

  /** @param {...number} values */
  function median(...values) {
    const ordered = values.slice().sort((a, b) => a - b);
    const half = ordered.length >> 1;
    return ordered.length % 2 ? ordered[half] : finite((ordered[half - 1] + ordered[half]) / 2);
  }

  /** @param {number} base @param {number} exponent */
  function power(base, exponent) {
    if (base === 0 && exponent < 0) {
      return unanswered("division by zero");
    }
    if (base < 0 && !Number.isInteger(exponent)) {
      return unanswered("power of a negative number");
    }
    return finite(Math.pow(base, exponent));
  }

  // Tables.

  /** @param {string | number} one @param {string | number} other */
  function isSame(one, other) {
    if (typeof one === "string" || typeof other === "string") {
      return one === other;
    }
    return Math.abs(one - other) <= SAME * Math.max(Math.abs(one), Math.abs(other));
  }

  /** @param {string} name */
  function words(name) {
    return name.replace(/_/g, " ");
  }

  /** @param {Key} key @param {string | number} value */
  function shown(key, value) {
    if (typeof value === "string") {
      return value;
    }
    return key.unit ? plain(toFloat(fromBase(exact(value), key.unit))) + " " + key.unit.name : plain(value);
  }

  /** @param {Key} key @param {number} asked @param {number[]} values @returns {never} */
  function pastEnd(key, asked, values) {
    const most = Math.max(...values);
    const end = asked > most ? " ends at " + shown(key, most) : " begins at " + shown(key, Math.min(...values));
    return unanswered(OUTSIDE + ": " + words(key.name) + " " + shown(key, asked) + ", the table" + end);
  }

  /** @param {Table} table @param {string} column @param {number} row */
  function cell(table, column, row) {
    const found = table.columns[column][row];
    if (found === null) {
      const told = table.keys.map((key, place) => words(key.name) + " " + shown(key, table.rows[row][place]));
      return unanswered(OUTSIDE + ": its source gives no " + words(column) + " for " + told.join(", "));
    }
    return found;
  }

  /** @param {Table} table @param {number} place @param {any} asked @param {number[]} rows @returns {number[]} */
  function narrowed(table, place, asked, rows) {
    const key = table.keys[place];
    const equal = rows.filter((row) => isSame(table.rows[row][place], asked));
    if (equal.length) {
      return equal;
    }
    if (key.match === "exact") {
      return unanswered(OUTSIDE + ": it has no " + words(key.name) + " " + shown(key, asked));
    }
    const values = rows.map((row) => Number(table.rows[row][place]));
    const beyond = values.filter((value) => (key.match === "up" ? value > asked : value < asked));
    if (!beyond.length) {
      return pastEnd(key, asked, values);
    }
    const next = key.match === "up" ? Math.min(...beyond) : Math.max(...beyond);
    return rows.filter((row) => table.rows[row][place] === next);
  }

  /** @param {Table} table @param {string} column @param {number} place @param {number} asked @param {number[]} rows */
  function between(table, column, place, asked, rows) {
    const pairs = rows.map((row) => ({ value: Number(table.rows[row][place]), row: row }));
    pairs.sort((a, b) => a.value - b.value || a.row - b.row);
    const equal = pairs.find((pair) => isSame(pair.value, asked));
    if (equal) {
      return cell(table, column, equal.row);
    }
    const low = pairs.filter((pair) => pair.value < asked).pop();
    const high = pairs.find((pair) => pair.value > asked);
    if (!low || !high) {
      return pastEnd(table.keys[place], asked, pairs.map((pair) => pair.value));
    }
    const first = Number(cell(table, column, low.row));
    const last = Number(cell(table, column, high.row));
    return finite(first + (last - first) * ((asked - low.value) / (high.value - low.value)));
  }

  /** @param {Table} table @param {string} column @param {...any} asked */
  function lookUp(table, column, ...asked) {
    let rows = table.rows.map((_, row) => row);
    for (const place of table.order) {
      if (table.keys[place].match === "between") {
        return between(table, column, place, asked[place], rows);
      }
      rows = narrowed(table, place, asked[place], rows);
    }
    return cell(table, column, rows[0]);
  }

  /** Turns along a line; the builder's `formula/turns.py` says how. @param {number} count @param {number} halvings */
  function roundsOf(count, halvings) {
    const last = floor(count);
    const isWhole = Math.abs(last - count) <= 1e-9 * Math.max(Math.abs(last), Math.abs(count));
    if (!isWhole || last < 1 || last > MOST_MARKS) {
      return unanswered("not a whole number of marks from 1 to 400");
    }
    const made = last > 2 ? [[1, last]] : last === 2 ? [[1], [2]] : [[1]];
    let done = last === 1 ? [1] : [1, last];
    for (let halved = 0; done.length < last; halved += 1) {
      const isHalved = halved < halvings;
      const found = stretches(done, isHalved);
      made.push(isHalved ? apart(found) : found);
      done = done.concat(found).sort((a, b) => a - b);
    }
    return made;
  }

  /** The middles of the stretches left, or every other mark in them. @param {number[]} done @param {boolean} isHalved */
  function stretches(done, isHalved) {
    /** @type {number[]} */
    const found = [];
    for (let place = 1; place < done.length; place += 1) {
      const left = done[place - 1];
      const right = done[place];
      if (isHalved && right - left > 1) found.push((left + right) >> 1);
      for (let mark = left + 1; !isHalved && mark < right; mark += 2) found.push(mark);
    }
    return found;
  }

  /** The two halves of a round by turns. @param {number[]} marks */
  function apart(marks) {
    const half = (marks.length + 1) >> 1;
    return marks.slice(0, half).flatMap((mark, place) => [mark, ...marks.slice(half + place, half + place + 1)]);
  }

  /** What emitted formulas call; one name for each row of the builder's table of functions. */
  const F = {
    pi: Math.PI,
    finite: finite,
    power: power,
    floor: floor,
    median: median,
    table: lookUp,
    /** @param {number} count @param {number} halvings */
    turns: (count, halvings) => roundsOf(count, halvings).map((marks) => marks.join(", ")).join("; "),
    /** @param {number} count @param {number} halvings */
    turnRounds: (count, halvings) => roundsOf(count, halvings).length,
    and: logic(false),
    or: logic(true),
    abs: Math.abs,
    sin: Math.sin,
    cos: Math.cos,
    tan: Math.tan,
    atan2: Math.atan2,
    of: of,
    /** @param {number} a @param {number} b */
    divide: (a, b) => (b === 0 ? unanswered("division by zero") : finite(a / b)),
    /** @param {number} value */
    ceil: (value) => 0 - floor(-value),
    /** @param {number} value */
    round: (value) => (value >= 0 ? floor(value + 0.5) : 0 - floor(0.5 - value)),
    /** @param {...number} values */
    min: (...values) => values.reduce((least, value) => (value < least ? value : least)),
    /** @param {...number} values */
    max: (...values) => values.reduce((most, value) => (value > most ? value : most)),
    /** @param {number} value */
    sqrt: (value) => (value < 0 ? unanswered("root of a negative number") : Math.sqrt(value)),
    /** @param {number} value */
    exp: (value) => finite(Math.exp(value)),
    /** @param {number} value */
    ln: (value) => (value <= 0 ? unanswered("logarithm of a number not above zero") : Math.log(value)),
    /** @param {number} value */
    log10: (value) => (value <= 0 ? unanswered("logarithm of a number not above zero") : Math.log10(value)),
    /** @param {number} value @param {number} above @param {number} below @param {number} offset */
    inUnit: (value, above, below, offset) => finite(((value - offset) * below) / above),
    /** @param {number} value @param {number} above @param {number} below @param {number} offset */
    withUnit: (value, above, below, offset) => finite((value * above) / below + offset),
  };

  seambook.formula = { F: F, NoAnswer: NoAnswer, isSame: isSame, settled: settled };
})();
