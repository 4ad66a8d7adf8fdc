/**
 * A four-sided opening that leans, the lean exaggerated. Needs measure.js. The builder's
 * `render/drawings/opening.py` draws the same.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { boxOf, line, path, points, words, wrap, WIDTH } = seambook.strokes;
  const { between, inside, onPaper } = seambook.measure;
  const [LEFT, TOP, WIDE, HIGH, DRAWN_LEAN, FARTHEST, SIZE] = [92, 52, 176, 150, 26, 60, 13];

  /** @param {Sketch} sketch @returns {{marks: Mark[], height: number}} */
  function draw({ measures }) {
    const [width, height, aside] = ["width", "height", "lean"].map((name) => measures[name].value);
    if (width === null || height === null || aside === null || !(width > 0 && height > 0)) return { marks: [], height: 20 };
    const scale = Math.min(WIDE / width, HIGH / height);
    const [wide, high, lean] = [width * scale, height * scale, drawnLean(aside * scale)];
    const [foot, left] = [TOP + high, LEFT + Math.max(0, -lean)];
    /** @type {Point[]} */
    const corners = [[left, foot], [left + wide, foot], [left + wide + lean, TOP], [left + lean, TOP]];
    const side = left + Math.min(0, lean) - 22;
    const marks = [
      path(`M${points(corners)}Z`, "outline"),
      ...diagonals(measures, corners),
      line([[left, foot], [left, TOP]], "axis"),
      ...between([left, foot], [left + wide, foot], [0, 26]),
      ...between([left, TOP], [left, foot], [side - left, 0]),
      ...(lean ? between([left, TOP], [left + lean, TOP], [0, -16]) : []),
    ];
    const labels = [
      { lines: [measures.width.text], x: left + wide / 2, y: foot + 21, size: SIZE, anchor: "middle" },
      { lines: [measures.height.text], x: side - 6, y: (TOP + foot) / 2 + 4, size: SIZE, anchor: "end" },
      { lines: [measures.lean.text], x: left + lean / 2, y: TOP - 21, size: SIZE, anchor: "middle" },
    ];
    marks.push(...labels.flatMap((label) => onPaper(inside(label))));
    const lines = wrap(saidOf(aside * scale, lean), 12, WIDTH - 16);
    const said = { lines, x: 8, y: foot + 50, size: 12, style: "quiet" };
    marks.push(...words(said));
    return { marks, height: boxOf(said).bottom + 6 };
  }

  /** @param {number} lean */
  function drawnLean(lean) {
    if (!lean || Math.abs(lean) >= DRAWN_LEAN) return Math.max(-FARTHEST, Math.min(FARTHEST, lean));
    return lean > 0 ? DRAWN_LEAN : -DRAWN_LEAN;
  }

  /** @param {number} real @param {number} drawn */
  function saidOf(real, drawn) {
    if (Math.abs(real) > Math.abs(drawn)) return "Drawn to scale but for the lean, which is drawn smaller.";
    return real === drawn ? "Drawn to scale." : "Drawn to scale but for the lean, which is exaggerated.";
  }

  /** @param {Record<string, Measure>} measures @param {Point[]} corners @returns {Mark[]} */
  function diagonals(measures, corners) {
    /** @type {Array<[string, number, number]>} */
    const both = [["rising", 0, 2], ["falling", 3, 1]];
    return both.flatMap(([name, one, other]) => {
      const measure = measures[name];
      if (!measure || measure.value === null) return [];
      const [[x1, y1], [x2, y2]] = [corners[one], corners[other]];
      const text = { lines: [measure.text], x: x1 + (x2 - x1) * 0.3, y: y1 + (y2 - y1) * 0.3 + 4, size: SIZE, anchor: "middle" };
      return [line([[x1, y1], [x2, y2]]), ...onPaper(inside(text))];
    });
  }

  seambook.sketches.opening = draw;
})();
