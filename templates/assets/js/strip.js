/**
 * The sheets of a marking strip, in millimetres. Needs pieces.js, paper.js and lengths.js. The builder's
 * `render/drawings/strip.py` draws the same.
 */

/**
 * @typedef {{method: string, id: string, seam: string, methodTitle: string, shop: string, edition: string,
 *   isHanded: boolean, lengths: LengthData, segments: LaidSegment[], stopped: string, notPlanned: string}} StripData
 * @typedef {{left: number, right: number, end: number, top: number, count: number}} PieceFrame
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { widthOf } = seambook.strokes;
  const { say, join, unitOf } = seambook.lengths;
  const { line, upright, arrowLeft, text, shortened } = seambook.paper;
  const [WIDTH, HEIGHT, ON_A_SHEET, FRONT, CHECK, FIRST, PIECE] = [258, 186, 4, 6, 100, 35, 37];
  const [CHECK_FROM, CHECK_LINE] = [1, 29];
  const [UPPER, LOWER, TAB, SHORTEST, NUMBER, PLACE, WORDS, CODE] = [19, 29, 8, 100, 3.4, 2.6, 3, 28];
  const LABELS = [[15, 18], [8.2, 11.2]];
  const [GAP, HAIR, LEAST] = [1.2, 0.4, 10];
  const [FRONT_END, REAR_END] = ["Front end", "Rear end"];
  const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

  /** @param {StripData} strip @returns {{title: string, marks: Mark[]}[]} */
  function sheets(strip) {
    /** @type {Piece[]} */
    const cut = seambook.pieces(strip.segments);
    const count = Math.ceil(cut.length / ON_A_SHEET);
    return Array.from({ length: count }, (_, at) => {
      const part = cut.slice(at * ON_A_SHEET, (at + 1) * ON_A_SHEET);
      const marks = [...head(strip, at + 1, count, cut.length), ...checkLine(), ...foot(strip)];
      marks.push(...part.flatMap((piece, row) => pieceMarks(strip, piece, cut.length, FIRST + PIECE * row)));
      return { title: `Sheet ${at + 1} of ${count}: ${strip.seam}, ${strip.methodTitle}`, marks };
    });
  }

  /** @param {StripData} strip @param {number} sheet @param {number} count @param {number} pieceCount @returns {Mark[]} */
  function head(strip, sheet, count, pieceCount) {
    const number = `Sheet ${sheet} of ${count}`;
    const room = WIDTH - widthOf(number, 4.2) - 6;
    const hand = strip.isHanded ? " It serves both sides of the car; on one of them it reads upside down." : "";
    const cut = "Cut the pieces out. Where letters agree, lay the edge of the piece behind on the line of the one before.";
    const legend = "A cross is a weld: its number from the front of its segment, and its place from there in ";
    const ticks = ". Short light strokes: about where the factory's welds were.";
    return [
      text(shortened(`${strip.seam}: ${strip.methodTitle}`, 5, room, true), 0, 4.8, 5, { style: "strong" }),
      text(number, WIDTH, 4.8, 4.2, { anchor: "end" }),
      text(told(strip), 0, 9.8, WORDS),
      text(pieceCount > 1 ? cut : "Cut the strip out.", 0, 13.8, WORDS),
      text(`Lay the strip along the flange with the arrow to the front.${hand}`, 0, 17.8, WORDS),
      text(join(legend, unitOf(strip.lengths), ticks), 0, 21.8, WORDS),
    ];
  }

  /** The segments in a line, as far as there is room for them. @param {StripData} strip @returns {BothSaid} */
  function told({ segments, lengths }) {
    /** @type {(string | BothSaid)[]} */
    let parts = [];
    for (const { label, length, row, why } of segments) {
      const welds = row ? `, ${row.count} ${row.count === 1 ? "weld" : "welds"}` : `, ${why}`;
      const apart = row && row.count > 1 ? join(" ", say(lengths, row.spacing), " apart") : "";
      const more = [...parts, join(`${label} `, say(lengths, length), welds, apart)];
      const all = inARow(more);
      if (Math.max(widthOf(all.text, WORDS), widthOf(all.other, WORDS)) > WIDTH - CODE) return inARow([...parts, "…"]);
      parts = more;
    }
    return inARow(parts);
  }

  /** @param {(string | BothSaid)[]} parts @returns {BothSaid} */
  function inARow(parts) {
    return join(...parts.flatMap((part, at) => (at ? ["; ", part] : [part])));
  }

  /** 100 mm to lay a rule on, with a stroke every 10 mm. @returns {Mark[]} */
  function checkLine() {
    const [left, y] = [CHECK_FROM, CHECK_LINE];
    const tens = Array.from({ length: 9 }, (_, at) => left + 10 * (at + 1));
    const check = "Print at 100 percent, not fitted to the page. Then lay a steel rule on this line.";
    const refuse = "If it is not exactly 100 mm long, do not use the sheet.";
    return [
      text("Check line, 100 mm", 0, y - 3.2, WORDS, { style: "strong" }),
      line([[left, y], [left + CHECK, y]], "check"),
      ...upright([left, left + CHECK], y - 2.5, y + 2.5, "check"),
      ...upright(tens, y - 1.2, y, "check"),
      text(check, left + CHECK + 6, y - 1.4, WORDS),
      text(refuse, left + CHECK + 6, y + 3, WORDS, { style: "strong" }),
    ];
  }

  /** @param {StripData} strip @returns {Mark[]} */
  function foot({ shop, edition }) {
    const marks = [text(shortened(`${shop}, ${edition}`, PLACE, 142), 0, HEIGHT - 1, PLACE, { style: "quiet" })];
    /** @type {[string, number][]} */
    const blanks = [["Car", 24], ["Side", 14], ["Measured by", 12], ["Date", 14]];
    let x = 146;
    for (const [label, room] of blanks) {
      marks.push(text(label, x, HEIGHT - 1, PLACE, { style: "quiet" }));
      x += widthOf(label, PLACE) + 1;
      marks.push(line([[x, HEIGHT - 0.6], [x + room, HEIGHT - 0.6]], "thin"));
      x += room + 2;
    }
    return marks;
  }

  /** The letter of a join: A to Z, then A1 and so on. @param {number} number */
  function letter(number) {
    const turn = Math.floor((number - 1) / LETTERS.length);
    return LETTERS[(number - 1) % LETTERS.length] + (turn || "");
  }

  /** @param {StripData} strip @param {Piece} piece @param {number} count @param {number} top @returns {Mark[]} */
  function pieceMarks(strip, piece, count, top) {
    const [left, right] = [FRONT, FRONT + piece.end - piece.start];
    const end = piece.isLast ? Math.max(right + 6, left + SHORTEST) : right + TAB;
    const frame = { left, right, end, top, count };
    return [
      ...outline(piece, frame),
      ...caption(strip, piece, frame),
      line([[left, top + UPPER], [right, top + UPPER]], "thin"),
      line([[left, top + LOWER], [right, top + LOWER]], "thin"),
      ...upright(piece.factory.map((place) => left + place - piece.start), top + LOWER + 0.6, top + LOWER + 3, "factory"),
      ...borders(strip, piece, frame),
      ...crosses(strip, piece, frame),
    ];
  }

  /** Where it is cut out. @param {Piece} piece @param {PieceFrame} frame @returns {Mark[]} */
  function outline({ number, isLast }, { left, right, end, top }) {
    const start = left - (number === 1 ? 5.5 : 0);
    const bottom = top + 36.2;
    const marks = [line([[start, top], [end, top], [end, bottom], [start, bottom], [start, top]], "cut")];
    if (number > 1) {
      marks.push(...upright([left], top, bottom, "outline"));
      marks.push(text(letter(number - 1), left + 1.2, top + 5, 4.6, { style: "strong" }));
    }
    if (!isLast) {
      marks.push(...upright([right], top, bottom, "outline"));
      marks.push(text(letter(number), right + TAB / 2, top + 5, 4.6, { anchor: "middle", style: "strong" }));
    }
    return marks;
  }

  /** What tells a piece once it is cut out. @param {StripData} strip @param {Piece} piece @param {PieceFrame} frame */
  function caption(strip, { number, isLast }, { left, right, end, top, count }) {
    const x = left + (number > 1 ? 8 : 0);
    const room = (isLast ? end - 1 : right) - x - 11;
    const said = `Front. Piece ${number} of ${count}. ${strip.seam}, ${strip.methodTitle}`;
    return [...arrowLeft(x, top + 3, 9), text(shortened(said, PLACE, room), x + 10.5, top + 3.9, PLACE)];
  }

  /** Where segments begin, with their names as far as there is room, and where the last one ends.
   * @param {StripData} strip @param {Piece} piece @param {PieceFrame} frame @returns {Mark[]} */
  function borders({ segments }, piece, { left, right, top }) {
    const [upper, lower, below] = [top + UPPER - 1.5, top + LOWER + 3.5, top + 35.2];
    const xs = piece.borders.map(({ place }) => left + place - piece.start);
    const ends = [...xs.slice(1), right - (piece.isLast ? widthOf(REAR_END, PLACE) + 2 : 0)];
    const marks = piece.borders.flatMap(({ segment }, at) => {
      const stroke = upright([xs[at]], upper, lower, "outline");
      const label = `${segment === 0 ? `${FRONT_END}. ` : ""}${segments[segment].label} begins`;
      if (!(ends[at] - xs[at] > LEAST)) return stroke;
      return [...stroke, text(shortened(label, PLACE, ends[at] - xs[at] - 2), xs[at] + 1, below, PLACE)];
    });
    if (!piece.isLast) return marks;
    return [...marks, ...upright([right], upper, lower, "outline"), text(REAR_END, right - 1, below, PLACE, { anchor: "end" })];
  }

  /** A cross for every weld, and above it what there is room for.
   * @param {StripData} strip @param {Piece} piece @param {PieceFrame} frame @returns {Mark[]} */
  function crosses({ segments, lengths }, piece, { left, top }) {
    const middle = (top + UPPER + (top + LOWER)) / 2;
    const xs = piece.crosses.map(({ place }) => left + place - piece.start);
    const marks = [...upright(xs, top + UPPER, top + LOWER, "cross")];
    marks.push(...xs.map((x) => line([[x - 2, middle], [x + 2, middle]], "cross")));
    let [near, far, stroke] = [0, 0, 0];
    piece.crosses.forEach(({ segment, number }, at) => {
      const [x, row] = [xs[at], segments[segment].row];
      /** @type {BothSaid} */
      const place = say(lengths, row ? row.first + row.spacing * (number - 1) : 0, true);
      const half = halfOf(number, place);
      if (x - half >= Math.max(near + GAP, stroke + HAIR)) {
        near = x + half;
        marks.push(...labelOf(number, place, x, top, LABELS[0]));
      } else if (x - half >= far + GAP && x >= near + HAIR) {
        [far, stroke] = [x + half, x];
        marks.push(...upright([x], top + LABELS[1][1] + 0.6, top + UPPER, "thin"));
        marks.push(...labelOf(number, place, x, top, LABELS[1]));
      }
    });
    return marks;
  }

  /** @param {number} number @param {BothSaid} place @param {number} x @param {number} top @param {number[]} lines */
  function labelOf(number, place, x, top, [upper, lower]) {
    return [
      text(String(number), x, top + upper, NUMBER, { anchor: "middle", style: "strong" }),
      text(place, x, top + lower, PLACE, { anchor: "middle" }),
    ];
  }

  /** Half the room that the label of a weld takes. @param {number} number @param {BothSaid} place */
  function halfOf(number, place) {
    const both = Math.max(widthOf(place.text, PLACE), widthOf(place.other, PLACE));
    return Math.max(both, widthOf(String(number), NUMBER, true)) / 2;
  }

  seambook.strip = { WIDTH, HEIGHT, sheets };
})();
