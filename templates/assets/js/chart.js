/**
 * Lines over one input, drawn. Needs scale.js and strokes.js. The builder's `render/drawings/chart.py` draws the same.
 */

/**
 * @typedef {{label: string, points: Array<[number, number | null]>, here: number | null, value: string}} Trace
 * @typedef {{foot: string, unit: string, start: number, end: number, traces: Trace[], stepped: boolean,
 *   limit: {label: string, y: number, value: string} | null, here: number | null, hereSaid: string}} Chart
 * @typedef {{left: number, across: Ticks, up: Ticks | null, x: (value: number) => number,
 *   y: (value: number) => number}} ChartLayout
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { scale, strokes } = seambook;
  const { line, words, widthOf, boxOf, WIDTH } = strokes;
  const [TOP, FOOT, RIGHT, LABELS] = [36, 196, 216, 234];
  const [SIZE, TICK_SIZE, BEYOND, POINT] = [13, 12, 10, 3.4];
  const [UP, ACROSS, LEAST_GAP] = [4, 5, 62];

  /** @param {Ticks} ticks */
  function widest(ticks) {
    return Math.max(0, ...scale.texts(ticks).map((/** @type {string} */ text) => widthOf(text, TICK_SIZE)));
  }

  /** @param {Chart} chart @returns {ChartLayout} */
  function layOut(chart) {
    const known = chart.traces.flatMap((trace) => [...trace.points.map(([, y]) => y), trace.here]);
    const numbers = /** @type {number[]} */ (known.filter((y) => y !== null));
    if (chart.limit && numbers.length) numbers.push(chart.limit.y);
    const up = numbers.length ? scale.around(Math.min(...numbers), Math.max(...numbers), UP) : null;
    const left = Math.max(30, up ? widest(up) + 10 : 0);
    const [low, high] = up ? [scale.value(up, up.first), scale.value(up, up.last)] : [0, 1];
    return {
      left,
      across: acrossOf(chart, RIGHT - left),
      up,
      x: (value) => left + ((RIGHT - left) * (value - chart.start)) / (chart.end - chart.start),
      y: (value) => FOOT - ((FOOT - TOP) * (value - low)) / (high - low),
    };
  }

  /** As many ticks as their numbers leave room for. @param {Chart} chart @param {number} room @returns {Ticks} */
  function acrossOf(chart, room) {
    for (let divisions = ACROSS; divisions > 1; divisions -= 1) {
      const ticks = scale.within(chart.start, chart.end, divisions);
      if (widest(ticks) + 8 <= (room * Math.abs(scale.value(ticks, 1))) / (chart.end - chart.start)) return ticks;
    }
    return scale.within(chart.start, chart.end, 1);
  }

  /** @param {Chart} chart @returns {{marks: Mark[], height: number}} */
  function draw(chart) {
    const layout = layOut(chart);
    const foot = {
      lines: strokes.wrap(chart.foot, SIZE, LABELS - 20),
      x: Math.max((layout.left + RIGHT) / 2, 8 + (LABELS - 20) / 2),
      y: FOOT + 38,
      size: SIZE,
      anchor: "middle",
    };
    const leaders = strokes.column(called(chart, layout), LABELS, WIDTH - LABELS - 2, 10);
    const bottoms = leaders.map((/** @type {{bottom: number}} */ one) => one.bottom);
    const named = leaders.flatMap((/** @type {{marks: Mark[]}} */ one) => one.marks);
    const marks = [...axes(chart, layout), ...lines(chart, layout), ...words(foot), ...named];
    return { marks, height: Math.max(boxOf(foot).bottom, ...bottoms) + 8 };
  }

  /** @param {Chart} chart @param {ChartLayout} layout @returns {Mark[]} */
  function axes(chart, layout) {
    const { left, across, up } = layout;
    /** @type {Mark[]} */
    const marks = [];
    const upTexts = up ? scale.texts(up) : [];
    (up ? scale.values(up) : []).forEach((/** @type {number} */ value, /** @type {number} */ index) => {
      const y = layout.y(value);
      marks.push(line([[left, y], [RIGHT, y]], "grid"), line([[left - 3, y], [left, y]]));
      marks.push(...words({ lines: [upTexts[index]], x: left - 6, y: y + 4, size: TICK_SIZE, anchor: "end" }));
    });
    const acrossTexts = scale.texts(across);
    scale.values(across).forEach((/** @type {number} */ value, /** @type {number} */ index) => {
      const x = layout.x(value);
      marks.push(line([[x, FOOT], [x, FOOT + 4]]));
      marks.push(...words({ lines: [acrossTexts[index]], x, y: FOOT + 17, size: TICK_SIZE, anchor: "middle" }));
    });
    const [top, end] = [[left, TOP - BEYOND], [RIGHT + BEYOND, FOOT]];
    marks.push(line([top, [left, FOOT], end]), strokes.arrowhead(top, -Math.PI / 2), strokes.arrowhead(end, 0));
    if (chart.unit) marks.push(...words({ lines: [chart.unit], x: left - 6, y: TOP - 20, size: TICK_SIZE, anchor: "end" }));
    return marks;
  }

  /** @param {Chart} chart @param {ChartLayout} layout @returns {Mark[]} */
  function lines(chart, layout) {
    /** @type {Mark[]} */
    const marks = [];
    if (layout.up && chart.limit) {
      const y = layout.y(chart.limit.y);
      marks.push(line([[layout.left, y], [RIGHT, y]], "limit"));
    }
    chart.traces.forEach((trace, number) => {
      const d = stretches(chart, layout, trace).map((part) => `M${strokes.points(part)}`).join("");
      if (d) marks.push(strokes.path(d, `trace trace-${number + 1}`));
    });
    marks.push(...gaps(chart, layout).flatMap(words));
    if (chart.here === null) return marks;
    const x = layout.x(chart.here);
    marks.push(line([[x, FOOT], [x, TOP - 14]], "here"));
    for (const { here } of chart.traces) if (here !== null) marks.push(strokes.circle([x, layout.y(here)], POINT));
    const half = widthOf(chart.hereSaid, SIZE, true) / 2;
    const middle = Math.min(Math.max(x, layout.left + half), LABELS - 6 - half);
    const said = { lines: [chart.hereSaid], x: middle, y: TOP - 20, size: SIZE, anchor: "middle", style: "strong" };
    return [...marks, ...words(said)];
  }

  /** A line's parts, broken where there is no answer; one value by itself is a dot.
   * @param {Chart} chart @param {ChartLayout} layout @param {Trace} trace @returns {Point[][]} */
  function stretches(chart, layout, trace) {
    /** @type {Point[][]} */
    const found = [[]];
    trace.points.forEach(([, value], number) => {
      if (value === null) {
        found.push([]);
        return;
      }
      const y = layout.y(value);
      for (const x of reach(chart, trace, number)) found[found.length - 1].push([layout.x(x), y]);
    });
    return found.filter((part) => part.length).map((part) => (part.length > 1 ? part : [...part, ...part]));
  }

  /** @param {Chart} chart @param {Trace} trace @param {number} number */
  function reach(chart, trace, number) {
    const x = trace.points[number][0];
    if (!chart.stepped) return [x];
    const before = number ? trace.points[number - 1][0] : x;
    const after = number + 1 < trace.points.length ? trace.points[number + 1][0] : x;
    return [(before + x) / 2, (x + after) / 2];
  }

  /** @param {Chart} chart @param {ChartLayout} layout @returns {Label[]} */
  function gaps(chart, layout) {
    /** @type {Label[]} */
    const found = [];
    /** @type {number | null} */
    let start = null;
    const places = chart.traces[0].points.map(([x]) => x);
    places.forEach((x, number) => {
      const isEmpty = chart.traces.every((trace) => trace.points[number][1] === null);
      if (isEmpty && start === null) start = x;
      if (start === null || (isEmpty && number < places.length - 1)) return;
      const [left, right] = [layout.x(start), layout.x(x)];
      const said = { lines: ["no answer"], x: (left + right) / 2, y: FOOT - 8, size: TICK_SIZE, anchor: "middle", style: "quiet" };
      if (right - left >= LEAST_GAP) found.push(said);
      start = null;
    });
    return found;
  }

  /** @param {Chart} chart @param {ChartLayout} layout @returns {Called[]} */
  function called(chart, layout) {
    /** @type {Called[]} */
    const found = [];
    for (const trace of chart.traces) {
      const ends = trace.points.filter(([, y]) => y !== null);
      const [x, y] = ends.length ? ends[ends.length - 1] : [0, null];
      if (y !== null) found.push({ place: [layout.x(x), layout.y(y)], head: trace.value || "–", name: trace.label });
    }
    if (chart.limit && layout.up) {
      found.push({ place: [RIGHT, layout.y(chart.limit.y)], head: chart.limit.value, name: chart.limit.label });
    }
    return found.sort((one, other) => one.place[1] - other.place[1]);
  }

  seambook.chart = { draw };
})();
