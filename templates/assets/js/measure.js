/**
 * A dimension between two places, and labels on bare paper. Needs strokes.js. The builder's
 * `render/drawings/measure.py` draws the same.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { line, arrowhead, boxOf, points, path, words, widthOf, WIDTH } = seambook.strokes;
  const [GAP, BEYOND, OUTSIDE, TAIL, EDGE] = [3, 4, 20, 14, 4];

  /** @param {Point} one @param {Point} other @param {Point} away @returns {Mark[]} */
  function between(one, other, away) {
    const reach = Math.hypot(away[0], away[1]);
    /** @type {Point[]} */
    const ends = [[one[0] + away[0], one[1] + away[1]], [other[0] + away[0], other[1] + away[1]]];
    if (reach <= GAP) return arrows(ends[0], ends[1]);
    const [near, far] = [GAP / reach, 1 + BEYOND / reach];
    const extensions = [one, other].map(([x, y]) =>
      line([[x + away[0] * near, y + away[1] * near], [x + away[0] * far, y + away[1] * far]])
    );
    return [...extensions, ...arrows(ends[0], ends[1])];
  }

  /** @param {Point} one @param {Point} other @returns {Mark[]} */
  function arrows(one, other) {
    const direction = Math.atan2(other[1] - one[1], other[0] - one[0]);
    if (Math.hypot(other[0] - one[0], other[1] - one[1]) >= OUTSIDE) {
      return [line([one, other]), arrowhead(one, direction + Math.PI), arrowhead(other, direction)];
    }
    const [x, y] = [TAIL * Math.cos(direction), TAIL * Math.sin(direction)];
    const tails = line([[one[0] - x, one[1] - y], [other[0] + x, other[1] + y]]);
    return [tails, arrowhead(one, direction), arrowhead(other, direction + Math.PI)];
  }

  /** The label moved in where it would leave the sheet. @param {Label} label @returns {Label} */
  function inside(label) {
    const box = boxOf(label);
    return { ...label, x: label.x + Math.max(EDGE - box.left, 0) + Math.min(WIDTH - EDGE - box.right, 0) };
  }

  /** What a level dimension at y says: on its line, or past an end of it where it has no room; none beyond `end`.
   * @param {string} text @param {number} left @param {number} right @param {number} y @param {number} size
   * @param {number} [end] */
  function beside(text, left, right, y, size, end) {
    const room = widthOf(text, size);
    const out = right - left >= OUTSIDE ? 6 : TAIL + 6;
    const isRoomy = right - left >= room + 6;
    const isRoomBehind = right + out + room <= (end === undefined ? WIDTH - EDGE : end);
    if (!isRoomy && isRoomBehind) return words({ lines: [text], x: right + out, y: y + 4, size });
    if (!isRoomy && left - out - room >= EDGE) return words({ lines: [text], x: left - out, y: y + 4, size, anchor: "end" });
    return onPaper(inside({ lines: [text], x: (left + right) / 2, y: y - 5, size, anchor: "middle" }));
  }

  /** @param {Label} label @returns {Mark[]} */
  function onPaper(label) {
    const { left, top, right, bottom } = boxOf(label);
    const corners = [[left, top], [right, top], [right, bottom], [left, bottom]];
    return [path(`M${points(corners)}Z`, "paper"), ...words(label)];
  }

  seambook.measure = { between, beside, inside, onPaper };
  seambook.sketches = {};
})();
