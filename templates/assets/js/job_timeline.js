/**
 * The timeline of a job as marks: a drawing for each working day, all to one scale, time along its top, a line below for each
 * procedure or pair of hands. Hours in which the shop is closed are hatched and have no length. Pure; job_timeline_draw.js
 * puts the marks into a page. Needs job_words.js.
 */

/**
 * @typedef {{lanes: Lane[], bars: Bar[], clashes: {trait: string, title: string, spans: [number, number][]}[]}} TimelineRows
 * @typedef {{opens: number, closes: number, days: number[], now: number | null, width: number}} TimelineFrame
 * @typedef {{start: number, end: number, opens: number, closes: number}} DayAxis
 * @typedef {{marks: TimelineMark[], width: number, height: number, title: string}} TimelineSheet
 * @typedef {{tag: string, attributes: Record<string, string>, text?: string, title?: string}} TimelineMark
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { MINUTE, midnight, minuteOfDay, weekday, day, clock } = seambook.jobWords;
  const [NIGHT, NAMES, NARROW] = [16, 190, 620];
  const [HEAD, BAR, LEVEL, AIR, NAME, LINE] = [46, 22, 9, 10, 22, 15];
  const [SIZE, SMALL, LEAST, LETTER] = [14, 12, 3, 7.6];

  /** @param {number} value */
  function at(value) {
    return String(Math.round(value * 10) / 10);
  }

  /** @param {string} d @param {string} style @param {Record<string, string>} [more] @returns {TimelineMark} */
  function path(d, style, more) {
    return { tag: "path", attributes: { class: style, d, ...more } };
  }

  /** @param {number} x @param {number} y @param {number} width @param {number} height @param {string} style @param {Record<string, string>} [more] @returns {TimelineMark} */
  function box(x, y, width, height, style, more) {
    return { tag: "rect", attributes: { class: style, x: at(x), y: at(y), width: at(width), height: at(height), ...more } };
  }

  /** @param {string} text @param {number} x @param {number} y @param {string} style @param {string} [anchor] @returns {TimelineMark} */
  function words(text, x, y, style, anchor) {
    return { tag: "text", attributes: { class: style, x: at(x), y: at(y), ...(anchor ? { "text-anchor": anchor } : {}) }, text };
  }

  /** What fits into so much room, with dots where it is cut. @param {string} text @param {number} room @param {number} size */
  function shortened(text, room, size) {
    const fit = Math.floor(room / (size * 0.56));
    return text.length <= fit ? text : fit > 2 ? `${text.slice(0, fit - 1).trimEnd()}\u2026` : "";
  }

  /** Every day from the first mark to the last. @param {TimelineRows} rows @param {TimelineFrame} frame @returns {DayAxis[]} */
  function axes({ bars }, frame) {
    if (!bars.length) return [];
    const first = Math.min(...bars.map(({ parts }) => parts[0][0]));
    const last = Math.max(...bars.map(({ end, until }) => Math.max(end, until)));
    const parts = bars.flatMap((bar) => bar.parts).filter(([from, to]) => to > from);
    const opens = Math.min(frame.opens, ...parts.map(([from]) => minuteOfDay(from)));
    const closes = Math.max(frame.closes, ...parts.map(([from, to]) => (to - midnight(from)) / MINUTE));
    /** @type {DayAxis[]} */
    const found = [];
    for (let start = midnight(first); start <= last; start = midnight(start, 1)) {
      found.push({ start, end: midnight(start, 1), opens: start + opens * MINUTE, closes: start + Math.min(closes, 1440) * MINUTE });
    }
    return found;
  }

  /** @param {DayAxis} axis @param {TimelineRows} rows */
  function isWorked(axis, { bars }) {
    return bars.some(({ parts }) => parts.some(([from, to]) => from < axis.end && to >= axis.start && (to > axis.start || from === to)));
  }

  /** A drawing for each day, so that paper may turn over between them. @param {TimelineRows} rows @param {TimelineFrame} frame @returns {TimelineSheet[]} */
  function draw(rows, frame) {
    /** @type {TimelineSheet[]} */
    const sheets = [];
    /** @type {DayAxis[]} */
    let closed = [];
    for (const axis of axes(rows, frame)) {
      if (!isWorked(axis, rows)) closed.push(axis);
      else {
        if (closed.length) sheets.push(rest(closed, rows, frame));
        closed = [];
        sheets.push(strip(axis, rows, frame));
      }
    }
    return closed.length ? [...sheets, rest(closed, rows, frame)] : sheets;
  }

  /** Days without work in one hatched band; what waits through them is counted.
   * @param {DayAxis[]} days @param {TimelineRows} rows @param {TimelineFrame} frame @returns {TimelineSheet} */
  function rest(days, { bars }, frame) {
    const [first, last] = [days[0], days[days.length - 1]];
    const name = first === last ? day(first.start) : `${day(first.start)} to ${day(last.start)}`;
    const isShut = days.every(({ start }) => !frame.days.includes(weekday(start)));
    const waits = bars.filter(({ end, until }) => until > first.start && end < last.end && until > end).length;
    const said = `${name}: ${isShut ? "closed" : "no hands-on work"}${waits ? `, ${waits === 1 ? "one wait runs" : `${waits} waits run`} on` : ""}`;
    const text = shortened(said, frame.width - 24, SIZE);
    const marks = [box(0, 2, frame.width, 26, "night"), box(8, 4, text.length * LETTER + 12, 22, "ground"), words(text, 14, 20, "quiet")];
    return { marks, width: frame.width, height: 30, title: said };
  }

  /** One day. @param {DayAxis} axis @param {TimelineRows} rows @param {TimelineFrame} frame @returns {TimelineSheet} */
  function strip(axis, rows, frame) {
    const isNarrow = frame.width < NARROW;
    const left = isNarrow ? 0 : NAMES;
    const inner = frame.width - left - 2 * NIGHT;
    const x = (/** @type {number} */ ms) => {
      if (ms < axis.opens) return ms <= axis.start ? left : left + NIGHT * 0.5;
      if (ms > axis.closes) return ms >= axis.end ? frame.width : frame.width - NIGHT * 0.5;
      return left + NIGHT + (inner * (ms - axis.opens)) / (axis.closes - axis.opens);
    };
    const seen = rows.bars.filter((bar) => bar.parts[0][0] < axis.end && Math.max(bar.end, bar.until) > axis.start);
    /** @type {TimelineMark[]} */
    const over = [];
    let y = HEAD;
    for (const lane of rows.lanes) {
      const own = seen.filter(({ lanes }) => lanes.includes(lane.id));
      if (own.length) y = row(over, lane, own, { axis, x, left, width: frame.width, isNarrow }, y);
    }
    rows.clashes.forEach((clash, rank) => {
      const own = clash.spans.filter(([from, to]) => from < axis.end && to > axis.start);
      if (own.length) y = about(over, { ...clash, rank, spans: own }, { axis, x, left, width: frame.width, isNarrow }, y);
    });
    const count = seen.filter(({ parts }) => parts.some(([from, to]) => from < axis.end && to >= axis.start)).length;
    const isNow = frame.now !== null && frame.now >= axis.opens && frame.now <= axis.closes;
    const title = `${day(axis.start)}: ${count === 1 ? "one step" : `${count} steps`}`;
    return { marks: [...ground(axis, x, frame, { foot: y, left }), ...over], width: frame.width, height: y + (isNow ? 20 : 4), title };
  }

  /** The day's name, its hours and its closed time.
   * @param {DayAxis} axis @param {(ms: number) => number} x @param {TimelineFrame} frame @param {{foot: number, left: number}} place */
  function ground(axis, x, frame, { foot, left }) {
    const base = HEAD;
    const marks = [words(day(axis.start), 0, 20, "day"), path(`M0 ${at(base)}H${at(frame.width)}`, "outline")];
    const opens = Math.max(axis.opens, axis.start + frame.opens * MINUTE);
    const closes = Math.min(axis.closes, axis.start + frame.closes * MINUTE);
    marks.push(box(left, base, x(opens) - left, foot - base, "night"), box(x(closes), base, frame.width - x(closes), foot - base, "night"));
    const every = (x(axis.opens + 60 * MINUTE) - x(axis.opens)) > 26 ? 1 : 2;
    const first = Math.ceil((axis.opens - axis.start) / (60 * MINUTE));
    for (let hour = first; axis.start + hour * 60 * MINUTE <= axis.closes; hour += 1) {
      const ms = axis.start + hour * 60 * MINUTE;
      const isNamed = (hour - first) % every === 0;
      marks.push(path(`M${at(x(ms))} ${at(base - (isNamed ? 7 : 4))}V${at(foot)}`, "hour"));
      if (isNamed) marks.push({ ...words(String(hour), x(ms), base - 11, "hour-name", "middle"), title: clock(ms) });
    }
    if (frame.now !== null && frame.now >= axis.opens && frame.now <= axis.closes) {
      marks.push(path(`M${at(x(frame.now))} ${at(base - 2)}V${at(foot)}`, "now"), words("now", x(frame.now), foot + 14, "now-name", "middle"));
    }
    return marks;
  }

  /**
   * One line of a day: bars above, waits below them, each wait in the first level that is free.
   * @param {TimelineMark[]} marks @param {Lane} lane @param {Bar[]} own
   * @param {{axis: DayAxis, x: (ms: number) => number, left: number, width: number, isNarrow: boolean}} frame @param {number} y
   */
  function row(marks, lane, own, frame, y) {
    const { x, isNarrow, width } = frame;
    const top = y + AIR + (isNarrow ? NAME : 0);
    marks.push(...nameMarks(lane.title, isNarrow, width, isNarrow ? y + 18 : top + 10));
    /** @type {TimelineMark[]} */
    const points = [];
    /** @type {number[]} */
    const levels = [];
    for (const bar of own) {
      for (const part of bar.parts) if (part[0] < frame.axis.end && part[1] >= frame.axis.start) marks.push(...barMarks(bar, part, top, frame, points));
      const [from, to] = [Math.max(bar.end, frame.axis.start), Math.min(bar.until, frame.axis.end)];
      if (!(to > from)) continue;
      let level = levels.findIndex((end) => end <= from);
      if (level < 0) level = levels.push(0) - 1;
      levels[level] = to;
      marks.push(...waitMarks(bar, top + BAR + 6 + LEVEL * level, frame));
    }
    const foot = top + BAR + LEVEL * levels.length + AIR;
    marks.push(...points, path(`M0 ${at(foot)}H${at(width)}`, "lane-line"));
    return foot;
  }

  /** The name of a line; beside it in at most two lines, or above it in one.
   * @param {string} title @param {boolean} isNarrow @param {number} width @param {number} y @returns {TimelineMark[]} */
  function nameMarks(title, isNarrow, width, y) {
    const room = isNarrow ? width - 2 * NIGHT : NAMES - 14;
    if (isNarrow) return [{ ...words(shortened(title, room, SIZE), NIGHT + 2, y, "lane-name"), title }];
    const fit = Math.floor(room / LETTER);
    const cut = title.length <= fit ? title.length : title.lastIndexOf(" ", fit);
    const lines = [title.slice(0, cut > 0 ? cut : fit), shortened(title.slice(cut > 0 ? cut : fit).trim(), room, SMALL)].filter(Boolean);
    const first = y + (lines.length > 1 ? 0 : LINE / 2);
    return lines.map((line, at) => ({ ...words(line, 0, first + LINE * at, "lane-name"), title }));
  }

  /** @param {Bar} bar @param {[number, number]} part @param {number} top @param {{axis: DayAxis, x: (ms: number) => number}} frame
   * @param {TimelineMark[]} points  Takes what is drawn over all bars. @returns {TimelineMark[]} */
  function barMarks(bar, [from, to], top, { axis, x }, points) {
    const [left, right] = [x(Math.max(from, axis.start)), x(Math.min(to, axis.end))];
    const width = Math.max(right - left, LEAST);
    const sort = [bar.critical && " critical", bar.done && " done", bar.isWaiting && " held"].filter(Boolean).join("");
    const about = { "data-id": bar.id, "data-from": String(from), "data-to": String(to) };
    const marks = [{ ...box(left, top, width, BAR, `bar${sort}`, about), title: `${clock(from)} to ${clock(to)}: ${bar.told}` }];
    if (width > bar.label.length * LETTER + 4) marks.push(/** @type {any} */ (words(bar.label, left + width / 2, top + 16, `bar-name${sort}`, "middle")));
    if (bar.done) marks.push(/** @type {any} */ (path(`M${at(left)} ${at(top + BAR)}L${at(left + width)} ${at(top)}`, "struck")));
    if (bar.hold && to === bar.end) points.push(...holdMarks(bar, right, top));
    return marks;
  }

  /** A lozenge with the letter of the point, at the end of its step. @param {Bar} bar @param {number} x @param {number} top */
  function holdMarks(bar, x, top) {
    const middle = top - 2;
    return [
      path(`M${at(x)} ${at(middle - 10)}l9 10l-9 10l-9 -10Z`, "hold-mark"),
      { ...words(bar.hold, x, middle + 4, "hold-name", "middle"), title: bar.told },
    ];
  }

  /** A thin line with strokes at its true ends, as a dimension has them. @param {Bar} bar @param {number} y @param {{axis: DayAxis, x: (ms: number) => number}} frame @returns {TimelineMark[]} */
  function waitMarks(bar, y, { axis, x }) {
    const [from, to] = [Math.max(bar.end, axis.start), Math.min(bar.until, axis.end)];
    const [left, right] = [x(from), x(to)];
    const about = { "data-wait": bar.id, "data-from": String(bar.end), "data-to": String(bar.until) };
    const style = `wait${bar.critical ? " critical" : ""}${bar.attended ? " attended" : ""}`;
    const marks = [{ ...path(`M${at(left)} ${at(y)}H${at(Math.max(right, left + 1))}`, style, about), title: `${bar.told}: waits until ${day(bar.until)}, ${clock(bar.until)}` }];
    for (const [ms, end] of [[from, bar.end], [to, bar.until]]) {
      if (ms === end) marks.push(/** @type {any} */ (path(`M${at(x(ms) - 3)} ${at(y + 3.5)}l6 -7`, style)));
    }
    return marks;
  }

  /** What is about the car, hatched by its rank. @param {TimelineMark[]} marks
   * @param {{trait: string, title: string, rank: number, spans: [number, number][]}} clash
   * @param {{axis: DayAxis, x: (ms: number) => number, left: number, width: number, isNarrow: boolean}} frame @param {number} y */
  function about(marks, { trait, title, rank, spans }, { axis, x, isNarrow, width }, y) {
    const top = y + 6 + (isNarrow ? NAME : 0);
    const name = shortened(title, isNarrow ? width - 2 * NIGHT : NAMES - 14, SMALL);
    marks.push({ ...words(name, isNarrow ? NIGHT + 2 : 0, isNarrow ? y + 18 : top + 11, "about-name"), title });
    for (const [from, to] of spans) {
      const [left, right] = [x(Math.max(from, axis.start)), x(Math.min(to, axis.end))];
      const where = { "data-trait": trait, "data-from": String(from), "data-to": String(to) };
      marks.push({ ...box(left, top, Math.max(right - left, LEAST), 14, `about about-${rank % 4}`, where), title: `${title}, ${clock(from)} to ${clock(to)}` });
    }
    return top + 20;
  }

  seambook.jobTimeline = { draw, axes };
})();
