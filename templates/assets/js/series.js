/**
 * Samples of a chart: its program run over a range. Needs answers.js and scale.js; touches no page. The builder's
 * `formula/series.py` means the same.
 */

/**
 * @typedef {{id: string, over: string, start: number, end: number, show: string[], limit: string | null,
 *   limitSay: string}} ChartData  Ends are in base units.
 * @typedef {{x: number, ys: Array<number | null>}} Sample
 * @typedef {{samples: Sample[], stepped: boolean, here: Sample | null, given: number | null, limit: number | null,
 *   why: string[], at: (x: number) => Sample}} Series
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { numbers, scale, formula } = seambook;
  const CUTS = 40;
  const MOST_STEPS = 60;
  const MOST_SAMPLES = 300;
  const HALVINGS = 10;
  const FINENESS = 300;
  const LEAST_ROWS = 5;
  const SLACK = 1e-9;

  /** @param {number} base @param {Unit} unit @returns {number} */
  function inUnit(base, unit) {
    return numbers.toFloat(numbers.fromBase(numbers.exact(base), unit));
  }

  /** @param {number} number @param {Unit} unit @returns {number} */
  function toBase(number, unit) {
    return numbers.toFloat(numbers.toBase(numbers.exact(number), unit));
  }

  /**
   * @param {Calculator} calculator @param {ChartData} chart
   * @param {Record<string, any>} values  Of an answer; the input of the chart may be missing.
   * @returns {Series}
   */
  function series(calculator, chart, values) {
    const why = chart.show.map(() => "");
    /** @param {number} x @returns {Sample} */
    function at(x) {
      const found = formula.rework(calculator, values, chart.over, x);
      chart.show.forEach((name, place) => {
        if (found[name] instanceof formula.NoAnswer) why[place] = why[place] || found[name].why;
      });
      return { x, ys: chart.show.map((name) => (typeof found[name] === "number" ? found[name] : null)) };
    }
    const input = calculator.inputs.find((one) => one.id === chart.over);
    const own = /** @type {Input} */ (input).units[0];
    const [start, end] = [inUnit(chart.start, own), inUnit(chart.end, own)];
    const whole = /** @type {Input} */ (input).whole;
    const samples = whole
      ? wholePlaces(start, end).map((place) => at(toBase(place, own)))
      : refined(evenly(chart).map(at), at);
    const given = typeof values[chart.over] === "number" ? values[chart.over] : null;
    const here = given !== null && chart.start <= given && given <= chart.end ? at(given) : null;
    const limit = chart.limit !== null && typeof values[chart.limit] === "number" ? values[chart.limit] : null;
    return { samples, stepped: whole && end - start <= MOST_STEPS, here, given, limit, why, at };
  }

  /** @param {ChartData} chart */
  function evenly(chart) {
    return Array.from({ length: CUTS + 1 }, (_, cut) => chart.start + ((chart.end - chart.start) * cut) / CUTS);
  }

  /** @param {number} start @param {number} end */
  function wholePlaces(start, end) {
    const [low, high] = [Math.ceil(start - SLACK), Math.floor(end + SLACK)];
    const count = high - low <= MOST_STEPS ? high - low : CUTS;
    return Array.from({ length: count + 1 }, (_, cut) =>
      high - low <= MOST_STEPS ? low + cut : low + Math.floor(((high - low) * cut) / CUTS)
    );
  }

  /** At which round values, in the unit shown, a chart is said as a table.
   * @param {number} start @param {number} end @param {boolean} whole @returns {number[]} */
  function rowPlaces(start, end, whole) {
    let ticks = scale.within(start, end, 1);
    for (let divisions = 2; divisions < 3 * LEAST_ROWS; divisions += 1) {
      const finer = scale.within(start, end, divisions);
      if (ticks.last - ticks.first + 1 >= LEAST_ROWS || (whole && finer.power < 0)) break;
      ticks = finer;
    }
    return scale.values(ticks);
  }

  /** @param {Sample[]} samples @param {(x: number) => Sample} at */
  function refined(samples, at) {
    const known = /** @type {number[]} */ (samples.flatMap((sample) => sample.ys).filter((y) => y !== null));
    const [low, high] = known.length ? [Math.min(...known), Math.max(...known)] : [0, 0];
    const tolerance = Math.max((high - low) / FINENESS, 1e-12 * Math.max(Math.abs(low), Math.abs(high)));
    let now = { samples, open: samples.slice(1).map(() => true) };
    for (let turn = 0; turn < HALVINGS && now.open.some(Boolean); turn += 1) {
      now = halved(now.samples, now.open, tolerance, at);
    }
    return now.samples;
  }

  /** @param {Sample[]} samples @param {boolean[]} open @param {number} tolerance @param {(x: number) => Sample} at */
  function halved(samples, open, tolerance, at) {
    const grown = [samples[0]];
    /** @type {boolean[]} */
    const still = [];
    let room = MOST_SAMPLES - samples.length;
    open.forEach((may, place) => {
      const [one, other] = [samples[place], samples[place + 1]];
      const middle = may && room > 0 ? at((one.x + other.x) / 2) : null;
      if (middle && bends(one, middle, other, tolerance)) {
        grown.push(middle);
        still.push(true, true);
        room -= 1;
      } else {
        still.push(false);
      }
      grown.push(other);
    });
    return { samples: grown, open: still };
  }

  /** @param {Sample} one @param {Sample} middle @param {Sample} other @param {number} tolerance */
  function bends(one, middle, other, tolerance) {
    return one.ys.some((a, place) => {
      const [b, c] = [middle.ys[place], other.ys[place]];
      if (a === null || b === null || c === null) return !(a === null && b === null && c === null);
      return Math.abs(b - (a + c) / 2) > tolerance;
    });
  }

  seambook.series = { series, rowPlaces, inUnit, toBase };
})();
