/**
 * Marks in millimetres, to hundredths. Needs numbers.js and strokes.js. The builder's `render/drawings/paper.py` makes
 * the same.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { numbers, strokes } = seambook;
  const [HEAD, HALF] = [2.6, 0.5];

  /** @param {number} value @returns {string} */
  function mm(value) {
    return numbers.fixed(value, 2).replace(/\.?0+$/, "");
  }

  /** @param {Point[]} places @param {string} style @returns {Mark} */
  function line(places, style) {
    return strokes.path(`M${places.map(([x, y]) => `${mm(x)} ${mm(y)}`).join("L")}`, style);
  }

  /** A stroke at each place; nothing where there is none.
   * @param {number[]} xs @param {number} top @param {number} foot @param {string} style @returns {Mark[]} */
  function upright(xs, top, foot, style) {
    const d = xs.map((x) => `M${mm(x)} ${mm(top)}V${mm(foot)}`).join("");
    return d ? [strokes.path(d, style)] : [];
  }

  /** An arrow whose tip is at the place. @param {number} x @param {number} y @param {number} length @returns {Mark[]} */
  function arrowLeft(x, y, length) {
    const tip = `M${mm(x)} ${mm(y)}L${mm(x + HEAD)} ${mm(y - HALF)}L${mm(x + HEAD)} ${mm(y + HALF)}Z`;
    return [line([[x, y], [x + length, y]], "thin"), strokes.path(tip, "solid")];
  }

  /** @param {string | BothSaid} said @param {number} x @param {number} y @param {number} size
   * @param {{anchor?: string, style?: string}} [how] @returns {Mark} */
  function text(said, x, y, size, how = {}) {
    const { text: own, other } = typeof said === "string" ? { text: said, other: said } : said;
    /** @type {Record<string, string>} */
    const attributes = how.style ? { class: how.style } : {};
    Object.assign(attributes, { x: mm(x), y: mm(y), "font-size": mm(size) });
    if (how.anchor) attributes["text-anchor"] = how.anchor;
    if (other !== own) attributes["data-q"] = other;
    return { tag: "text", attributes, text: own };
  }

  /** As much of a text as has room, with a sign where it was cut.
   * @param {string} said @param {number} size @param {number} room @param {boolean} [isBold] */
  function shortened(said, size, room, isBold) {
    if (strokes.widthOf(said, size, isBold) <= room) return said;
    const kept = Array.from(said);
    while (kept.length && strokes.widthOf(`${kept.join("")}…`, size, isBold) > room) kept.pop();
    return `${kept.join("").trimEnd()}…`;
  }

  seambook.paper = { mm, line, upright, arrowLeft, text, shortened };
})();
