/**
 * What is said of each segment below its band. Needs strokes.js and lengths.js. The builder's
 * `render/drawings/measures_below.py` draws the same.
 */

/**
 * @typedef {{length: number, count: number, first: number, spacing: number, order: number[]}} LaidRow  Lengths in mm.
 * @typedef {{label: string, length: number, factory: number | null, why: string, row: LaidRow | null}} LaidSegment
 * @typedef {{segment: LaidSegment, x: number, welds: number[]}} Block
 * @typedef {{lines: string[], others: string[], x: number, y: number, size: number, anchor?: string,
 *   style?: string}} BothLabel  A text in both systems of units, line by line.
 * @typedef {{marks: Mark[], labels: BothLabel[], left: number, right: number, bottom: number}} PlacedBlock
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { WIDTH, arrowhead, at, boxOf, line, path, points, widthOf, wrap } = seambook.strokes;
  const { say, join } = seambook.lengths;
  const [SIZE, EDGE, FIRST, STEP, TEXT, TAIL, OUTSIDE, APART, LEAST, LINE] = [13, 4, 16, 20, 20, 14, 20, 6, 120, 1.22];

  /** Place the blocks of a row from the right, each below those it would meet.
   * @param {LengthData} data @param {Block[]} blocks @param {number} foot @param {number} top */
  function below(data, blocks, foot, top) {
    /** @type {PlacedBlock[]} */
    const done = [];
    for (const block of blocks.slice().reverse()) {
      const trial = place(data, block, foot, top);
      const met = done.filter(({ left }) => left < trial.right + APART).map(({ bottom }) => bottom);
      done.push(met.length ? place(data, block, foot, Math.max(...met)) : trial);
    }
    const marks = done.flatMap((one) => one.marks);
    marks.push(...done.flatMap(({ labels }) => labels.flatMap((label) => [clear(label), ...words(label)])));
    return { marks, bottom: done.length ? Math.max(...done.map(({ bottom }) => bottom)) : top };
  }

  /** @param {LengthData} data @param {Block} block @param {number} foot @param {number} top @returns {PlacedBlock} */
  function place(data, block, foot, top) {
    const { segment, welds, x } = block;
    const dimensions = dimensionsOf(data, block);
    let y = top + FIRST;
    /** @type {Mark[]} */
    const marks = [];
    /** @type {BothLabel[]} */
    const labels = [];
    for (const { left, right, said } of dimensions) {
      marks.push(...across(left, right, y, foot));
      labels.push(beside(said, left, right, y));
      y += STEP;
    }
    y += labels.length ? TEXT - STEP : 0;
    const room = Math.max(LEAST, WIDTH - EDGE - x);
    const head = { lines: wrap(segment.label, SIZE, room, true), others: [], x: 0, y, size: SIZE, style: "strong" };
    const facts = { ...wrapBoth(factsOf(data, segment, welds.length), room), x: 0, y: y + heightOf(head), size: SIZE };
    const left = Math.max(EDGE, Math.min(x, WIDTH - EDGE - Math.max(widthOfLabel(head), widthOfLabel(facts))));
    labels.push({ ...head, x: left }, { ...facts, x: left });
    const boxes = labels.map(box);
    const reach = dimensions.map(({ right }) => right + TAIL);
    return {
      marks, labels, left: Math.min(x, ...boxes.map((one) => one.left)),
      right: Math.max(x, ...reach, ...boxes.map((one) => one.right)), bottom: boxes[boxes.length - 1].bottom + APART,
    };
  }

  /** @param {LengthData} data @param {Block} block @returns {{left: number, right: number, said: BothSaid}[]} */
  function dimensionsOf(data, { segment, welds, x }) {
    const { row } = segment;
    if (!row || !welds.length) return [];
    const end = { left: x, right: welds[0], said: say(data, row.first) };
    return welds.length > 1 ? [{ left: welds[0], right: welds[1], said: say(data, row.spacing) }, end] : [end];
  }

  /** @param {LengthData} data @param {LaidSegment} segment @param {number} drawn @returns {BothSaid} */
  function factsOf(data, { length, row, why, factory }, drawn) {
    /** @type {(string | BothSaid)[]} */
    const parts = [say(data, length)];
    if (row) {
      parts.push(`${row.count}\u00a0${row.count === 1 ? "weld" : "welds"}`);
      if (drawn < 1 && row.count > 0) parts.push(join("first at ", say(data, row.first)));
      if (drawn < 2 && row.count > 1) parts.push(join(say(data, row.spacing), " apart"));
    } else if (why) {
      parts.push(why);
    }
    if (factory !== null) parts.push(`factory\u00a0${factory}`);
    return join(...parts.flatMap((part, index) => (index ? [", ", part] : [part])));
  }

  /** @param {BothSaid} said @param {number} left @param {number} right @param {number} y @returns {BothLabel} */
  function beside(said, left, right, y) {
    const label = { lines: [said.text], others: [said.other], x: 0, y: y + 4, size: SIZE };
    const width = widthOfLabel(label);
    const out = right - left >= OUTSIDE ? 6 : TAIL + 4;
    if (right - left >= width + 6) return { ...label, x: (left + right) / 2, y: y - 5, anchor: "middle" };
    if (right + out + width <= WIDTH - EDGE) return { ...label, x: right + out };
    return { ...label, x: left - out, anchor: "end" };
  }

  /** A level dimension between two extension lines that come from `foot`.
   * @param {number} left @param {number} right @param {number} y @param {number} foot @returns {Mark[]} */
  function across(left, right, y, foot) {
    const extensions = [left, right].map((x) => line([[x, foot + 3], [x, y + 4]]));
    if (right - left >= OUTSIDE) {
      return [...extensions, line([[left, y], [right, y]]), arrowhead([left, y], Math.PI), arrowhead([right, y], 0)];
    }
    const tails = line([[left - TAIL, y], [right + TAIL, y]]);
    return [...extensions, tails, arrowhead([left, y], 0), arrowhead([right, y], Math.PI)];
  }

  /** @param {BothSaid} said @param {number} room */
  function wrapBoth(said, room) {
    const [lines, others] = [wrap(said.text, SIZE, room), wrap(said.other, SIZE, room)];
    const count = Math.max(lines.length, others.length);
    /** @param {string[]} own */
    const filled = (own) => [...own, ...Array(count - own.length).fill("")];
    return { lines: filled(lines), others: filled(others) };
  }

  /** @param {BothLabel} label */
  function widthOfLabel({ lines, others, size, style }) {
    const isBold = (style || "").includes("strong");
    return Math.max(0, ...[...lines, ...others].map((text) => widthOf(text, size, isBold)));
  }

  /** @param {BothLabel} label */
  function heightOf({ lines, size }) {
    return size * LINE * lines.length;
  }

  /** @param {BothLabel} label */
  function box(label) {
    const width = widthOfLabel(label);
    const { top, bottom } = boxOf(label);
    const left = label.x - (label.anchor === "middle" ? width / 2 : label.anchor === "end" ? width : 0);
    return { left, top, right: left + width, bottom };
  }

  /** Bare paper under a label, which interrupts the lines it crosses. @param {BothLabel} label */
  function clear(label) {
    const { left, top, right, bottom } = box(label);
    return path(`M${points([[left, top], [right, top], [right, bottom], [left, bottom]])}Z`, "paper");
  }

  /** @param {BothLabel} label @returns {Mark[]} */
  function words({ lines, others, x, y, size, anchor, style }) {
    return lines.map((text, index) => {
      /** @type {Record<string, string>} */
      const attributes = style ? { class: style } : {};
      Object.assign(attributes, { x: at(x), y: at(y + index * size * LINE), "font-size": at(size) });
      if (anchor) attributes["text-anchor"] = anchor;
      if (others.length && others[index] !== text) attributes["data-q"] = others[index];
      return { tag: "text", attributes, text };
    });
  }

  seambook.measuresBelow = { below, words };
})();
