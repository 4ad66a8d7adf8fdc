/**
 * Marks along a line, drawn to scale. Needs measure.js. The builder's `render/drawings/marks.py` draws the same.
 */

/**
 * @typedef {{name: string, value: number | null, text: string}} Measure
 * @typedef {{id: string, measures: Record<string, Measure>, turns: number[]}} Sketch
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { at, line, words, widthOf, path, WIDTH } = seambook.strokes;
  const { between, beside } = seambook.measure;
  const LEFT = 16;
  const SPAN = WIDTH - 2 * LEFT;
  const [BAND, OVER, SIZE, TURN_SIZE, ROW, TURN_ROW] = [14, 4, 13, 12, 30, 15];
  const [FINE, MOST, MOST_TURN_ROWS] = [4, 1000, 4];

  /** @param {Sketch} sketch @returns {{marks: Mark[], height: number}} */
  function draw({ measures, turns }) {
    const count = countOf(measures);
    const { places, extent } = layOut(measures, count);
    const xs = places.map((place) => LEFT + place * (SPAN / extent));
    const turnRows = turnRowsOf(xs, turns);
    const top = 28 + (turnRows ? TURN_ROW * (turnRows + 1) : 0);
    const foot = top + BAND;
    /** @type {Mark[]} */
    const marks = count ? words({ lines: [counted(measures, count)], x: LEFT - 8, y: 16, size: SIZE, style: "strong" }) : [];
    if (turnRows) {
      const said = ["The number at a mark is its turn."];
      marks.push(...words({ lines: said, x: LEFT - 8, y: 32, size: TURN_SIZE, style: "quiet" }));
      marks.push(...turnMarks(xs, turns, turnRows, top));
    }
    const band = { class: "band", x: at(LEFT), y: at(top), width: at(SPAN), height: at(BAND) };
    marks.push({ tag: "rect", attributes: band }, ...ticks(xs, top));
    const rows = rowsOf(measures, xs, extent);
    /** @type {Mark[]} */
    const labels = [];
    rows.forEach(({ left, right, text }, number) => {
      const y = foot + OVER + ROW * (number + 1) - 6;
      marks.push(...between([left, foot + OVER], [right, foot + OVER], [0, y - foot - OVER]));
      labels.push(...beside(text, left, right, y, SIZE));
    });
    return { marks: [...marks, ...labels], height: foot + OVER + ROW * rows.length + 8 };
  }

  /** @param {Record<string, Measure>} measures */
  function countOf(measures) {
    const { value } = measures.count;
    return value === null ? 0 : Math.max(0, Math.floor(value + 0.5));
  }

  /** @param {Record<string, Measure>} measures @param {string} name */
  function valueOf(measures, name) {
    return measures[name] ? measures[name].value : null;
  }

  /** @param {Record<string, Measure>} measures @param {number} count @returns {{places: number[], extent: number}} */
  function layOut(measures, count) {
    const [length, first] = [valueOf(measures, "length"), valueOf(measures, "first")];
    let spacing = valueOf(measures, "spacing");
    const drawn = Math.min(count, MOST);
    if (spacing === null && length !== null && first !== null && count > 1) spacing = (length - 2 * first) / (count - 1);
    if (spacing === null && first !== null && count === 1) spacing = 0;
    if (spacing === null) {
      const extent = length || 1;
      return { places: Array.from({ length: drawn }, (_, number) => (extent * (number + 0.5)) / count), extent };
    }
    const step = spacing;
    const start = first !== null ? first : step / 2;
    const places = Array.from({ length: drawn }, (_, number) => start + step * number);
    const end = length !== null ? length : start * 2 + step * (count - 1);
    return { places, extent: Math.max(end, ...places) || 1 };
  }

  /** @param {Record<string, Measure>} measures @param {number} count */
  function counted(measures, count) {
    const text = `${measures.count.name}: ${count}`;
    return count > MOST ? `${text}, the first ${MOST} drawn` : text;
  }

  /** @param {number[]} xs @param {number} top @returns {Mark[]} */
  function ticks(xs, top) {
    const style = xs.length > 1 && xs[1] - xs[0] < FINE ? "tick-fine" : "tick";
    const d = xs.map((x) => `M${at(x)} ${at(top - OVER)}V${at(top + BAND + OVER)}`).join("");
    return d ? [path(d, style)] : [];
  }

  /** @param {Record<string, Measure>} measures @param {number[]} xs @param {number} extent */
  function rowsOf(measures, xs, extent) {
    const rows = [];
    if (xs.length > 1 && valueOf(measures, "spacing") !== null) {
      rows.push({ left: xs[0], right: xs[1], text: measures.spacing.text });
    }
    if (xs.length && valueOf(measures, "first") !== null) rows.push({ left: LEFT, right: xs[0], text: measures.first.text });
    const length = valueOf(measures, "length");
    if (length !== null) rows.push({ left: LEFT, right: LEFT + (SPAN * length) / extent, text: measures.length.text });
    return rows;
  }

  /** @param {number[]} xs @param {number[]} turns */
  function turnRowsOf(xs, turns) {
    if (!turns.slice(0, xs.length).some(Boolean)) return 0;
    const widest = widthOf(String(Math.max(...turns)), TURN_SIZE) + 4;
    const rows = xs.length > 1 && xs[1] > xs[0] ? Math.ceil(widest / (xs[1] - xs[0])) : 1;
    return rows <= MOST_TURN_ROWS ? rows : 0;
  }

  /** @param {number[]} xs @param {number[]} turns @param {number} rows @param {number} top @returns {Mark[]} */
  function turnMarks(xs, turns, rows, top) {
    return xs.flatMap((x, number) => {
      if (!turns[number]) return [];
      const y = top - OVER - 4 - TURN_ROW * (number % rows);
      const lead = number % rows ? [line([[x, top - OVER], [x, y + 3]], "grid")] : [];
      return [...lead, ...words({ lines: [String(turns[number])], x, y, size: TURN_SIZE, anchor: "middle" })];
    });
  }

  seambook.sketches.marks = draw;
})();
