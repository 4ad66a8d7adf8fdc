/**
 * A sheet bent once, its profile drawn to scale. Needs measure.js. The builder's `render/drawings/bend.py` draws the
 * same.
 */

/**
 * @typedef {{angle: number, radius: number, thickness: number, outer: number, leg: number, corner: number | null,
 *   scale: number, origin: Point}} Bend
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { at, line, path, circle, arrowhead, breakLine, column, WIDTH } = seambook.strokes;
  const { between, beside, inside, onPaper } = seambook.measure;
  const [LEFT, TOP, WIDE, HIGH, LABELS, SIZE] = [34, 22, 168, 150, 236, 13];
  const [ANGLE_OFF, SETBACK_OFF, FARTHEST, CUTS] = [14, 46, 4, 12];

  /** @param {number} outer @param {number} radius @param {number} turned @returns {Point} */
  function aroundCentre(outer, radius, turned) {
    return [radius * Math.sin(turned), outer - radius * Math.cos(turned)];
  }

  /** @param {number} angle @param {number} radius @param {number} thickness @returns {Bend} */
  function layOut(angle, radius, thickness) {
    const outer = radius + thickness;
    const leg = Math.max(5 * thickness, outer);
    const half = angle < Math.PI * 0.999 ? Math.tan(angle / 2) : Infinity;
    const corner = half <= FARTHEST ? outer * half : null;
    /** @type {Point[]} */
    const places = [[-leg, 0]];
    for (let cut = 0; cut <= CUTS; cut += 1) places.push(aroundCentre(outer, outer, (angle * cut) / CUTS));
    for (const face of [radius, outer]) {
      const [x, y] = aroundCentre(outer, face, angle);
      places.push([x + leg * Math.cos(angle), y + leg * Math.sin(angle)]);
    }
    if (corner !== null) places.push([corner, 0]);
    const [xs, ys] = [places.map(([x]) => x), places.map(([, y]) => y)];
    const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const scale = Math.min(WIDE / (right - left), HIGH / (high - low));
    return { angle, radius, thickness, outer, leg, corner, scale, origin: [LEFT - left * scale, TOP + high * scale] };
  }

  /** @param {Bend} bend @param {number} x @param {number} y @returns {Point} */
  function place(bend, x, y) {
    return [bend.origin[0] + x * bend.scale, bend.origin[1] - y * bend.scale];
  }

  /** @param {Bend} bend @param {number} radius @param {number} turned @returns {Point} */
  function around(bend, radius, turned) {
    const [x, y] = aroundCentre(bend.outer, radius, turned);
    return place(bend, x, y);
  }

  /** @param {Bend} bend @param {number} radius @returns {Point} */
  function along(bend, radius) {
    const [x, y] = aroundCentre(bend.outer, radius, bend.angle);
    return place(bend, x + bend.leg * Math.cos(bend.angle), y + bend.leg * Math.sin(bend.angle));
  }

  /** @param {Sketch} sketch @returns {{marks: Mark[], height: number}} */
  function draw({ id, measures }) {
    const [angle, radius, thickness] = ["angle", "radius", "thickness"].map((name) => measures[name].value);
    const isKnown = angle !== null && radius !== null && thickness !== null && angle > 0 && thickness > 0;
    if (!isKnown) return { marks: [], height: 20 };
    const bend = layOut(/** @type {number} */ (angle), /** @type {number} */ (radius), /** @type {number} */ (thickness));
    /** @type {Mark[]} */
    const marks = [...profile(id, bend), ...thicknessMarks(bend, measures.thickness)];
    const called = [angleOf(marks, bend, measures.angle), radiusOf(marks, bend, measures.radius)];
    called.push(...allowanceOf(marks, bend, measures.allowance));
    let foot = bend.origin[1];
    if (measures.setback && measures.setback.value !== null && bend.corner !== null) {
      marks.push(...setbackMarks(bend, bend.corner, measures.setback));
      foot += SETBACK_OFF;
    }
    called.sort((one, other) => one.place[1] - other.place[1]);
    const leaders = column(called, LABELS, WIDTH - LABELS - 2, 8);
    const bottoms = leaders.map((/** @type {{bottom: number}} */ one) => one.bottom + 8);
    const named = leaders.flatMap((/** @type {{marks: Mark[]}} */ one) => one.marks);
    return { marks: [...marks, ...named], height: Math.max(foot + 36, ...bottoms) };
  }

  /** @param {string} id @param {Bend} bend @returns {Mark[]} */
  function profile(id, bend) {
    const [outer, inner] = [at(bend.outer * bend.scale), at(bend.radius * bend.scale)];
    const places = [
      place(bend, -bend.leg, 0), around(bend, bend.outer, 0), around(bend, bend.outer, bend.angle),
      along(bend, bend.outer), along(bend, bend.radius), around(bend, bend.radius, bend.angle),
      around(bend, bend.radius, 0), place(bend, -bend.leg, bend.thickness),
    ];
    const [a, b, c, d, e, f, g, h] = places.map(([x, y]) => `${at(x)} ${at(y)}`);
    const edge = `M${a}L${b}A${outer} ${outer} 0 0 0 ${c}L${d}`;
    const insideEdge = `${e}L${f}A${inner} ${inner} 0 0 1 ${g}L${h}`;
    return [
      path(`${edge}L${insideEdge}Z`, "sheet", `url(#${id}_hatch-0)`),
      path(`${edge}M${insideEdge}`, "outline"),
      breakLine(places[7], places[0]),
      breakLine(places[3], places[4]),
    ];
  }

  /** @param {Bend} bend @param {Measure} measure @returns {Mark[]} */
  function thicknessMarks(bend, measure) {
    const [x, y] = place(bend, -bend.leg, 0);
    const text = { lines: [measure.text], x: 6, y: y + 30, size: SIZE };
    return [...between([x, y], [x, y - bend.thickness * bend.scale], [-14, 0]), ...onPaper(inside(text))];
  }

  /** @param {Mark[]} marks @param {Bend} bend @param {Measure} measure @returns {Called} */
  function angleOf(marks, bend, measure) {
    const radius = bend.outer + ANGLE_OFF / bend.scale;
    const [near, beyond] = [bend.outer + 3 / bend.scale, radius + 4 / bend.scale];
    for (const turned of [0, bend.angle]) marks.push(line([around(bend, near, turned), around(bend, beyond, turned)]));
    marks.push(arc(bend, radius, "thin"));
    if (bend.angle * radius * bend.scale >= 20) {
      marks.push(arrowhead(around(bend, radius, 0), Math.PI), arrowhead(around(bend, radius, bend.angle), -bend.angle));
    }
    return { place: around(bend, radius, bend.angle * 0.75), head: measure.text, name: measure.name };
  }

  /** @param {Mark[]} marks @param {Bend} bend @param {Measure} measure @returns {Called} */
  function radiusOf(marks, bend, measure) {
    const tip = around(bend, bend.radius, bend.angle / 2);
    const centre = place(bend, 0, bend.outer);
    const isWide = bend.radius * bend.scale >= 12;
    if (isWide) marks.push(line([centre, tip]), arrowhead(tip, Math.PI / 2 - bend.angle / 2));
    return { place: isWide ? centre : tip, head: `R ${measure.text}`, name: measure.name };
  }

  /** @param {Mark[]} marks @param {Bend} bend @param {Measure | undefined} measure @returns {Called[]} */
  function allowanceOf(marks, bend, measure) {
    if (!measure || measure.value === null) return [];
    const radius = Math.min(Math.max(measure.value / bend.angle, bend.radius), bend.outer);
    marks.push(arc(bend, radius, "axis"));
    for (const turned of [0, bend.angle]) marks.push(circle(around(bend, radius, turned), 1.6));
    return [{ place: around(bend, radius, bend.angle * 0.4), head: measure.text, name: measure.name }];
  }

  /** @param {Bend} bend @param {number} radius @param {string} style @returns {Mark} */
  function arc(bend, radius, style) {
    const size = at(radius * bend.scale);
    const [[x1, y1], [x2, y2]] = [around(bend, radius, 0), around(bend, radius, bend.angle)];
    return path(`M${at(x1)} ${at(y1)}A${size} ${size} 0 0 0 ${at(x2)} ${at(y2)}`, style);
  }

  /** @param {Bend} bend @param {number} far @param {Measure} measure @returns {Mark[]} */
  function setbackMarks(bend, far, measure) {
    const [start, corner, end] = [place(bend, 0, 0), place(bend, far, 0), around(bend, bend.outer, bend.angle)];
    const text = beside(measure.text, start[0], corner[0], start[1] + SETBACK_OFF, SIZE, LABELS - 4);
    return [line([start, corner, end], "axis"), ...between(start, corner, [0, SETBACK_OFF]), ...text];
  }

  seambook.sketches.bend = draw;
})();
