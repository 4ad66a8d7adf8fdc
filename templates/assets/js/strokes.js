/**
 * The few marks every drawing is made of, as data, and the room that words take. Touches no page but to put marks into
 * a drawing. The builder's `render/drawings/strokes.py`, `text.py` and `leader.py` mean the same.
 */

/**
 * @typedef {[number, number]} Point
 * @typedef {{tag: string, attributes: Record<string, string>, text?: string}} Mark
 * @typedef {{lines: string[], x: number, y: number, size: number, anchor?: string, style?: string}} Label
 * @typedef {{place: Point, head: string, name: string}} Called
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const WIDTH = 340;
  const HEAD = 8;
  const SPREAD = (10 * Math.PI) / 180;
  const LINE = 1.22;
  const WIDE = new Set("mwMWQ@%—…");
  const NARROW = new Set("ijlI|!.,:;'`()[]/ ");
  const SLIM = new Set('frt-"');
  const SVG = "http://www.w3.org/2000/svg";

  /** A coordinate, short; halves go to the even digit, as they do in the builder. @param {number} value */
  function at(value) {
    const text = Math.abs((value * 4) % 2) === 1 ? ((2 * Math.round(value * 5)) / 10).toFixed(1) : value.toFixed(1);
    return text.endsWith(".0") ? text.slice(0, -2) : text;
  }

  /** @param {Point[]} places */
  function points(places) {
    return places.map(([x, y]) => `${at(x)} ${at(y)}`).join("L");
  }

  /** @param {string} d @param {string} style @param {string} [fill] @returns {Mark} */
  function path(d, style, fill) {
    return { tag: "path", attributes: fill ? { class: style, fill, d } : { class: style, d } };
  }

  /** @param {Point[]} places @param {string} [style] */
  function line(places, style) {
    return path(`M${points(places)}`, style || "thin");
  }

  /** @param {Point} place @param {number} radius @returns {Mark} */
  function circle(place, radius) {
    return { tag: "circle", attributes: { class: "solid", cx: at(place[0]), cy: at(place[1]), r: String(radius) } };
  }

  /** @param {Point} tip @param {number} direction  In radians, clockwise from the right. */
  function arrowhead(tip, direction) {
    const ends = [-SPREAD, SPREAD].map((turn) => /** @type {Point} */ ([
      tip[0] - HEAD * Math.cos(direction + turn), tip[1] - HEAD * Math.sin(direction + turn),
    ]));
    return path(`M${points([tip, ...ends])}Z`, "solid");
  }

  /** The thin zigzag that ends what goes on outside the drawing. @param {Point} start @param {Point} end */
  function breakLine(start, end) {
    const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
    const length = Math.hypot(dx, dy) || 1;
    const swing = Math.min(4, length / 4);
    const steps = [[-0.12, 0], [0.4, 0], [0.45, swing], [0.55, -swing], [0.6, 0], [1.12, 0]];
    return line(steps.map(([share, aside]) => /** @type {Point} */ ([
      start[0] + dx * share + (dy / length) * aside, start[1] + dy * share - (dx / length) * aside,
    ])));
  }

  /** @param {string} character */
  function em(character) {
    if (WIDE.has(character)) return 1;
    if (NARROW.has(character)) return 0.4;
    if (SLIM.has(character)) return 0.47;
    const isUpper = character !== character.toLowerCase() && character === character.toUpperCase();
    return isUpper ? 0.77 : 0.65;
  }

  /** Upper estimate of a text's width. @param {string} text @param {number} size @param {boolean} [bold] */
  function widthOf(text, size, bold) {
    return size * (bold ? 1.12 : 1) * Array.from(text).reduce((sum, character) => sum + em(character), 0);
  }

  /** @param {string} text @param {number} size @param {number} room @param {boolean} [bold] @returns {string[]} */
  function wrap(text, size, room, bold) {
    /** @type {string[]} */
    const lines = [];
    for (const word of text.split(" ").filter(Boolean)) {
      const longer = lines.length ? `${lines[lines.length - 1]} ${word}` : word;
      if (lines.length && widthOf(longer, size, bold) <= room) lines[lines.length - 1] = longer;
      else lines.push(...cut(word, size, room, bold));
    }
    return lines;
  }

  /** @param {string} word @param {number} size @param {number} room @param {boolean} [bold] */
  function cut(word, size, room, bold) {
    const pieces = [""];
    for (const character of word) {
      const last = pieces[pieces.length - 1];
      const hyphen = last.lastIndexOf("-") + 1;
      const isTooLong = last && widthOf(last + character, size, bold) > room;
      if (isTooLong && hyphen > 1) pieces.splice(-1, 1, last.slice(0, hyphen), last.slice(hyphen));
      else if (isTooLong) pieces.push("");
      pieces[pieces.length - 1] += character;
    }
    return pieces;
  }

  /** The room a label takes. @param {Label} label */
  function boxOf(label) {
    const isBold = (label.style || "").includes("strong");
    const width = Math.max(0, ...label.lines.map((text) => widthOf(text, label.size, isBold)));
    const left = label.x - (label.anchor === "middle" ? width / 2 : label.anchor === "end" ? width : 0);
    const top = label.y - label.size * 0.95;
    return { left, top, right: left + width, bottom: top + label.size * LINE * label.lines.length };
  }

  /** @param {Label} label @returns {Mark[]} */
  function words(label) {
    return label.lines.map((text, index) => {
      /** @type {Record<string, string>} */
      const attributes = label.style ? { class: label.style } : {};
      attributes.x = at(label.x);
      attributes.y = at(label.y + index * label.size * LINE);
      attributes["font-size"] = at(label.size);
      if (label.anchor) attributes["text-anchor"] = label.anchor;
      return { tag: "text", attributes, text };
    });
  }

  /** @param {Called} part @param {number} x @param {number} room @returns {Label[]} with the reference line at 0 */
  function texts(part, x, room) {
    const heads = wrap(part.head, 14, room, true);
    const head = { lines: heads, x, y: -5 - (heads.length - 1) * 14 * LINE, size: 14, style: "strong" };
    const name = { lines: wrap(part.name, 13, room), x, y: 16, size: 13 };
    return [head, name].filter((label) => label.lines.length);
  }

  /** Leader labels in one column, in order, none overlapping.
   * @param {Called[]} called @param {number} x @param {number} room @param {number} ceiling */
  function column(called, x, room, ceiling) {
    const blocks = called.map((part) => texts(part, x, room));
    const tops = blocks.map((block) => -Math.min(...block.map((label) => boxOf(label).top)));
    const feet = blocks.map((block) => Math.max(...block.map((label) => boxOf(label).bottom)));
    /** @type {number[]} */
    const shelves = [];
    let bottom = ceiling;
    called.forEach((part, index) => {
      shelves.push(Math.max(part.place[1], bottom + tops[index]));
      bottom = shelves[index] + feet[index] + 7;
    });
    const pushed = shelves.reduce((sum, shelf, index) => sum + (shelf - called[index].place[1]), 0);
    const lift = shelves.length ? Math.min(pushed / shelves.length, shelves[0] - tops[0] - ceiling) : 0;
    return called.map((part, index) => leader(part, x, shelves[index] - lift, blocks[index]));
  }

  /** @param {Called} part @param {number} x @param {number} shelf @param {Label[]} block */
  function leader(part, x, shelf, block) {
    const moved = block.map((label) => ({ ...label, y: label.y + shelf }));
    const right = Math.max(...moved.map((label) => boxOf(label).right));
    const bottom = Math.max(...moved.map((label) => boxOf(label).bottom));
    const marks = [line([part.place, [x, shelf], [right, shelf]]), circle(part.place, 2.4), ...moved.flatMap(words)];
    return { marks, bottom };
  }

  /** Put marks into a drawing in place of those that are there; its name, words and hatching stay.
   * @param {Element} svg @param {Mark[]} marks @param {number} height */
  function put(svg, marks, height) {
    Array.from(svg.children).forEach((child) => {
      if (!["title", "desc", "defs"].includes(child.tagName)) child.remove();
    });
    svg.setAttribute("viewBox", `0 0 ${WIDTH} ${at(height)}`);
    svg.setAttribute("height", at(height));
    for (const { tag, attributes, text } of marks) {
      const made = document.createElementNS(SVG, tag);
      Object.keys(attributes).forEach((name) => made.setAttribute(name, attributes[name]));
      if (text !== undefined) made.textContent = text;
      svg.append(made);
    }
  }

  seambook.strokes = {
    WIDTH, at, points, path, line, circle, arrowhead, breakLine, widthOf, wrap, boxOf, words, column, put,
  };
})();
