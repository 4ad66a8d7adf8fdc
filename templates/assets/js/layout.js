/**
 * The welds of a seam, drawn in as many rows as they need. Needs order_numbers.js, measures_below.js and weld_places.js. The builder's
 * `render/drawings/layout.py` draws the same.
 */

/**
 * @typedef {{method: string, id: string, form: string, lengths: LengthData,
 *   segments: LaidSegment[], stopped: string, notPlanned: string}} LayoutData
 * @typedef {{row: number, x: number}} Spot
 * @typedef {{total: number, rows: number, units: number, spot: (place: number) => Spot}} SeamScale
 * @typedef {{segment: LaidSegment, start: number, welds: Spot[], factory: Spot[]}} LaidOut
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { WIDTH, arrowhead, at, boxOf, breakLine, line, path, words, wrap } = seambook.strokes;
  const { orderNumbers, measuresBelow, weldPlaces } = seambook;
  const LEFT = 16;
  const SPAN = WIDTH - 2 * LEFT;
  const [TOP, BAND, BETWEEN, CLOSEST, FINE, MOST_ROWS, NOTE] = [24, 14, 18, 8, 4, 6, 12];
  const [FACTORY, BORDER] = [[3, 11], [4, 14]];

  /** @param {LayoutData} data @returns {{marks: Mark[], height: number}} */
  function draw({ lengths, segments, form }) {
    const scale = scaleOf(segments);
    const laid = lay(segments, scale);
    const asked = laid.map(askedOf);
    /** @type {OrderNumber[]} */
    const numbers = orderNumbers.placed(asked, scale.rows);
    const levels = 1 + numbers.reduce((most, { level }) => Math.max(most, level), -1);
    const closest = closestOf(laid, scale);
    /** @type {Mark[]} */
    const marks = front();
    let y = TOP;
    for (let row = 0; row < scale.rows; row += 1) {
      const top = y + orderNumbers.LEVEL * levels + (levels ? 4 : 0);
      const foot = top + BAND;
      marks.push(...laid.flatMap((one) => stretch(one, scale, row, top)));
      const here = laid.flatMap(({ welds }) => welds.filter((spot) => spot.row === row).map(({ x }) => x));
      marks.push(...weldMarks(here, form, top, closest));
      marks.push(...numbers.filter((number) => number.row === row).flatMap((number) => numberMarks(number, top)));
      marks.push(...ends(scale, row, top));
      const blocks = laid.filter(({ start }) => scale.spot(start).row === row).map((one) => blockOf(one, scale));
      const found = measuresBelow.below(lengths, blocks, foot, foot + BORDER[1]);
      marks.push(...found.marks);
      y = found.bottom + BETWEEN;
    }
    const wanted = asked.reduce((sum, one) => sum + one.length, 0);
    const notes = { lines: wrap(notesOf(laid, numbers.length, wanted), NOTE, WIDTH - 8), x: 4, y: y + 4, size: NOTE, style: "quiet" };
    return { marks: [...marks, ...words(notes)], height: boxOf(notes).bottom + 4 };
  }

  /** @param {LaidSegment[]} segments @returns {SeamScale} */
  function scaleOf(segments) {
    const total = segments.reduce((sum, { length }) => sum + length, 0) || 1;
    let rows = 1;
    while (rows < MOST_ROWS && !segments.every((segment) => isRoomy(segment, (rows * SPAN) / total))) rows += 1;
    const units = (rows * SPAN) / total;
    /** @param {number} place */
    function spot(place) {
      const row = Math.min(rows - 1, Math.max(0, Math.floor((place * rows) / total + 1e-9)));
      return { row, x: LEFT + (place - (row * total) / rows) * units };
    }
    return { total, rows, units, spot };
  }

  /** @param {LaidSegment} segment @param {number} units */
  function isRoomy({ row }, units) {
    if (!row || row.count < 3) return true;
    return row.spacing * units >= (row.order.length ? orderNumbers.room(Math.max(...row.order)) / 2 : CLOSEST);
  }

  /** @param {LaidSegment[]} segments @param {SeamScale} scale @returns {LaidOut[]} */
  function lay(segments, scale) {
    let start = 0;
    return segments.map((segment) => {
      const from = start;
      start += segment.length;
      const spots = [weldPlaces.planned(segment), weldPlaces.factory(segment)].map((places) =>
        places.map((/** @type {number} */ place) => scale.spot(from + place))
      );
      return { segment, start: from, welds: spots[0], factory: spots[1] };
    });
  }

  /** @param {LaidOut} one @returns {OrderNumber[]} */
  function askedOf({ segment, welds }) {
    const order = segment.row ? segment.row.order : [];
    return welds.slice(0, order.length).map(({ row, x }, index) => ({ turn: order[index], row, x, at: index, level: 0 }));
  }

  /** @returns {Mark[]} */
  function front() {
    const arrow = [line([[LEFT, 12], [LEFT + 24, 12]]), arrowhead([LEFT, 12], Math.PI)];
    return [...arrow, ...words({ lines: ["Front"], x: LEFT + 30, y: 16, size: 13 })];
  }

  /** @param {LaidOut} one @param {SeamScale} scale @param {number} row @param {number} top @returns {Mark[]} */
  function stretch({ segment, start, factory }, scale, row, top) {
    const [first, last] = [scale.spot(start), scale.spot(start + segment.length)];
    const end = last.row > first.row && last.x <= LEFT + 1e-6 ? { row: last.row - 1, x: LEFT + SPAN } : last;
    if (row < first.row || row > end.row) return [];
    const left = row === first.row ? first.x : LEFT;
    const right = row === end.row ? end.x : LEFT + SPAN;
    const style = segment.row ? "band" : "band unknown";
    const band = { class: style, x: at(left), y: at(top), width: at(right - left), height: at(BAND) };
    const foot = top + BAND;
    const [upper, lower] = FACTORY.map((down) => at(foot + down));
    const ticks = factory.filter((spot) => spot.row === row).map(({ x }) => `M${at(x)} ${upper}V${lower}`).join("");
    const borders = [first, end].filter((spot) => spot.row === row)
      .map(({ x }) => line([[x, top - BORDER[0]], [x, foot + BORDER[1]]], "outline"));
    return [{ tag: "rect", attributes: band }, ...(ticks ? [path(ticks, "factory")] : []), ...borders];
  }

  /** @param {LaidOut[]} laid @param {SeamScale} scale */
  function closestOf(laid, scale) {
    const pitches = laid.flatMap(({ segment: { row } }) => (row && row.count > 2 ? [row.spacing * scale.units] : []));
    return pitches.length ? Math.min(...pitches) : CLOSEST;
  }

  /** @param {number[]} xs @param {string} form @param {number} top @param {number} closest @returns {Mark[]} */
  function weldMarks(xs, form, top, closest) {
    if (!xs.length) return [];
    if (closest < FINE) return [path(xs.map((x) => `M${at(x)} ${at(top)}V${at(top + BAND)}`).join(""), "tick-fine")];
    if (form !== "spot" && form !== "plug") {
      return [path(xs.map((x) => `M${at(x)} ${at(top + 2)}V${at(top + BAND - 2)}`).join(""), "tick")];
    }
    const radius = Math.min(3.2, closest * 0.34);
    const [r, across, middle] = [at(radius), at(2 * radius), at(top + BAND / 2)];
    const half = `${r} ${r} 0 1 1`;
    const rings = xs.map((x) => `M${at(x - radius)} ${middle}a${half} ${across} 0a${half} -${across} 0`);
    return [path(rings.join(""), form === "spot" ? "solid weld" : "hole")];
  }

  /** @param {OrderNumber} number @param {number} top @returns {Mark[]} */
  function numberMarks({ turn, x, level }, top) {
    const y = top - 5 - orderNumbers.LEVEL * level;
    const lead = level ? [line([[x, top], [x, y + 3]], "grid")] : [];
    const style = turn === 1 ? "strong" : "";
    return [...lead, ...words({ lines: [String(turn)], x, y, size: orderNumbers.SIZE, anchor: "middle", style })];
  }

  /** @param {SeamScale} scale @param {number} row @param {number} top @returns {Mark[]} */
  function ends({ rows }, row, top) {
    const xs = [...(row > 0 ? [LEFT] : []), ...(row < rows - 1 ? [LEFT + SPAN] : [])];
    return xs.map((x) => breakLine([x, top], [x, top + BAND]));
  }

  /** @param {LaidOut} one @param {SeamScale} scale @returns {Block} */
  function blockOf({ segment, start, welds }, scale) {
    const { row, x } = scale.spot(start);
    const first = welds.slice(0, 2);
    const drawn = first.length && first[0].row === row ? first.filter((spot) => spot.row === row) : [];
    return { segment, x, welds: drawn.map((spot) => spot.x) };
  }

  /** @param {LaidOut[]} laid @param {number} placed @param {number} asked */
  function notesOf(laid, placed, asked) {
    const said = [];
    const rest = placed < asked ? ", as far as there is room; all of it is in the table below" : "";
    if (placed) said.push(`Numbers: the turn in which a weld is made${rest}.`);
    if (laid.some(({ factory }) => factory.length)) said.push("Light ticks: the factory's welds, taken as evenly spread.");
    const isCut = laid.some(({ segment: { row } }) => row && row.count > weldPlaces.MOST);
    if (isCut) said.push(`Of each segment the first ${weldPlaces.MOST} welds are drawn.`);
    return said.join(" ");
  }

  seambook.layout = { draw };
})();
