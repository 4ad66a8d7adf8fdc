/**
 * A base with two legs bent up, its section drawn to scale. Needs measure.js. The builder's
 * `render/drawings/channel.py` draws the same.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { at, path, words } = seambook.strokes;
  const { between, inside, onPaper } = seambook.measure;
  const [LEFT, TOP, WIDE, HIGH, SIZE, WIDE_ENOUGH] = [84, 30, 172, 150, 13, 90];
  const NEEDED = ["base", "left", "right", "thickness"];

  /** @param {Sketch} sketch @returns {{marks: Mark[], height: number}} */
  function draw({ id, measures }) {
    /** @param {string} name */
    const size = (name) => (measures[name] && measures[name].value) || 0;
    if (NEEDED.some((name) => !(size(name) > 0))) return { marks: [], height: 20 };
    const scale = Math.min(WIDE / size("base"), HIGH / Math.max(size("left"), size("right")));
    const [base, left, right, thickness] = NEEDED.map((name) => size(name) * scale);
    const thick = Math.min(thickness, base / 2, left, right);
    const corner = Math.max(0, Math.min(size("radius") * scale, base / 2 - thick, left - thick, right - thick));
    const [foot, end] = [TOP + Math.max(left, right), LEFT + base];
    const middle = (LEFT + end) / 2;
    const isWide = base >= WIDE_ENOUGH;
    const marks = [
      ...section(id, [left, right, thick, corner], foot, end),
      ...between([LEFT, foot], [end, foot], [0, 28]),
      ...between([LEFT, foot - left], [LEFT, foot], [-24, 0]),
      ...between([end, foot - right], [end, foot], [24, 0]),
      ...(isWide ? between([middle, foot - thick], [middle, foot], [0, 0]) : []),
    ];
    const texts = [
      { lines: [measures.base.text], x: middle, y: foot + 23, size: SIZE, anchor: "middle" },
      { lines: [measures.left.text], x: LEFT - 29, y: foot - left / 2 + 4, size: SIZE, anchor: "end" },
      { lines: [measures.right.text], x: end + 29, y: foot - right / 2 + 4, size: SIZE },
    ];
    if (isWide) texts.push({ lines: [measures.thickness.text], x: middle + 6, y: foot - thick - 9, size: SIZE });
    marks.push(...texts.flatMap((text) => onPaper(inside(text))));
    const told = [...(isWide ? [] : ["thickness"]), "radius", "blank"].map((name) => measures[name]).filter((one) => one && one.value !== null);
    told.forEach(({ name, text }, row) => marks.push(...words({ lines: [`${name}: ${text}`], x: 8, y: foot + 50 + 18 * row, size: SIZE })));
    return { marks, height: foot + 50 + 18 * told.length - 8 };
  }

  /** @param {string} id @param {number[]} sizes @param {number} foot @param {number} end @returns {Mark[]} */
  function section(id, [left, right, thick, corner], foot, end) {
    const outer = corner ? corner + thick : 0;
    const [big, small] = [`${at(outer)} ${at(outer)}`, `${at(corner)} ${at(corner)}`];
    const d =
      `M${at(LEFT)} ${at(foot - left)}V${at(foot - outer)}A${big} 0 0 0 ${at(LEFT + outer)} ${at(foot)}` +
      `H${at(end - outer)}A${big} 0 0 0 ${at(end)} ${at(foot - outer)}V${at(foot - right)}H${at(end - thick)}` +
      `V${at(foot - thick - corner)}A${small} 0 0 1 ${at(end - thick - corner)} ${at(foot - thick)}` +
      `H${at(LEFT + thick + corner)}A${small} 0 0 1 ${at(LEFT + thick)} ${at(foot - thick - corner)}` +
      `V${at(foot - left)}Z`;
    return [path(d, "sheet", `url(#${id}_hatch-0)`), path(d, "outline")];
  }

  seambook.sketches.channel = draw;
})();
