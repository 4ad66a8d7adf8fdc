/**
 * Points with their deviations as two drawings, one looking down and one from the side: ink arrows, drawn larger by a
 * factor that is said, with their lengths written. Sound points are round and full, the others square and open.
 */

/**
 * @typedef {{at: Place, off: Place, sound: boolean, number: number}} DrawnPoint
 * @typedef {{left: number, top: number, right: number, bottom: number}} Box
 * @typedef {{title: string, across: number, up: number, names: [string, string], text: (value: number) => string}} View
 */

(function () {
  "use strict";

  const page = /** @type {any} */ (window);
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const SVG = "http://www.w3.org/2000/svg";
  const WIDTH = 340;
  const [EDGE, FOOT, LEAST, MOST] = [40, 34, 110, 320];
  const LONGEST_ARROW = 60;
  const SHORTEST_ARROW = 3;
  const LETTER = { width: 7.6, height: 14, size: 13 };
  const STEPS = [1, 2, 5];
  const AROUND = [[1, 0], [-1, 0], [0, -1], [0, 1], [1, -1], [-1, -1], [1, 1], [-1, 1]];

  /** @param {string} name @param {Record<string, string | number>} given @param {string} [text] */
  function element(name, given, text) {
    const made = document.createElementNS(SVG, name);
    Object.keys(given).forEach((key) => made.setAttribute(key, String(given[key])));
    if (text !== undefined) made.textContent = text;
    return made;
  }

  /** @param {number} value */
  function short(value) {
    return String(Math.round(value * 10) / 10);
  }

  /** The round factor by which arrows are drawn larger than the body. @param {number} scale @param {number} largest */
  function factorOf(scale, largest) {
    const wanted = largest > 0 ? LONGEST_ARROW / (scale * largest) : 1;
    let factor = 1;
    for (let power = 1; power <= 1e6; power *= 10) {
      for (const step of STEPS) if (step * power <= wanted) factor = step * power;
    }
    return factor;
  }

  /** @param {Box} one @param {Box} other */
  function meet(one, other) {
    return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
  }

  /** Where a label finds room beside its point: the nearest free place, else the first.
   * @param {number} x @param {number} y @param {number} width @param {Box[]} taken @param {number} height @returns {Box} */
  function roomFor(x, y, width, taken, height) {
    /** @type {Box[]} */
    const places = [8, 18, 30, 44, 60].flatMap((away) =>
      AROUND.map(([across, down]) => {
        const left = x + across * away - (across < 0 ? width : across === 0 ? width / 2 : 0);
        const top = y + down * away - LETTER.height / 2;
        return { left: left, top: top, right: left + width, bottom: top + LETTER.height };
      })
    );
    const inside = places.filter((box) => box.left >= 0 && box.right <= WIDTH && box.top >= 0 && box.bottom <= height);
    return inside.find((box) => !taken.some((other) => meet(box, other))) || inside[0] || places[0];
  }

  /** @param {DrawnPoint[]} points @param {View} view */
  function layOut(points, view) {
    const across = points.map((point) => point.at[view.across]);
    const up = points.map((point) => point.at[view.up]);
    const [left, low] = [Math.min(...across), Math.min(...up)];
    const wide = Math.max(Math.max(...across) - left, 1e-9);
    const high = Math.max(Math.max(...up) - low, 1e-9);
    const scale = Math.min((WIDTH - 2 * EDGE) / wide, (MOST - 2 * EDGE) / high);
    const height = Math.max(LEAST, high * scale + 2 * EDGE);
    const [startX, startY] = [(WIDTH - wide * scale) / 2, height - (height - high * scale) / 2];
    return { scale, height, place: (/** @type {Place} */ at) => [startX + (at[view.across] - left) * scale, startY - (at[view.up] - low) * scale] };
  }

  /** @param {number} x @param {number} y @param {boolean} sound */
  function markOf(x, y, sound) {
    if (sound) return element("circle", { class: "solid", cx: short(x), cy: short(y), r: 3.5 });
    return element("rect", { class: "outline paper-mark", x: short(x - 4), y: short(y - 4), width: 8, height: 8 });
  }

  /** A line with a full head; a short one is its head alone.
   * @param {number} x @param {number} y @param {number} dx @param {number} dy */
  function arrow(x, y, dx, dy) {
    const long = Math.sqrt(dx * dx + dy * dy);
    const [ux, uy] = [dx / long, dy / long];
    const head = Math.min(8, long);
    const [tipX, tipY] = [x + dx, y + dy];
    const [backX, backY] = [tipX - ux * head, tipY - uy * head];
    const wing = head * 0.4;
    const corners = [[tipX, tipY], [backX - uy * wing, backY + ux * wing], [backX + uy * wing, backY - ux * wing]];
    return [
      element("path", { class: "outline", d: `M${short(x)} ${short(y)}L${short(backX)} ${short(backY)}` }),
      element("path", { class: "solid", d: `M${corners.map(([a, b]) => `${short(a)} ${short(b)}`).join("L")}Z` }),
    ];
  }

  /** Which way the axes go, at the foot. @param {number} height @param {[string, string]} names */
  function axes(height, names) {
    const y = height + FOOT - 8;
    return [
      ...arrow(10, y, 26, 0), ...arrow(10, y, 0, -26),
      element("text", { x: 42, y: y + 4, "font-size": LETTER.size }, names[0]),
      element("text", { x: 16, y: y - 20, "font-size": LETTER.size }, names[1]),
    ];
  }

  /** The centre plane, seen from above, where it lies within the drawing.
   * @param {(at: Place) => number[]} place @param {number} height */
  function middle(place, height) {
    const y = place([0, 0, 0])[1];
    return y > 0 && y < height ? [element("path", { class: "middle", d: `M4 ${short(y)}H${WIDTH - 4}` })] : [];
  }

  /** @param {DrawnPoint[]} points @param {View} view @param {number} factor */
  function draw(points, view, factor) {
    const { scale, height, place } = layOut(points, view);
    const svg = element("svg", { class: "drawing", viewBox: `0 0 ${WIDTH} ${short(height + FOOT)}`, role: "img", "aria-label": view.title });
    const centre = view.up === 1 ? middle(place, height) : [];
    svg.append(...centre);
    const line = place([0, 0, 0])[1];
    /** @type {Box[]} */
    const taken = centre.map(() => ({ left: 0, right: WIDTH, top: line - 1, bottom: line + 1 }));
    /** @type {{x: number, y: number, point: DrawnPoint, size: number}[]} */
    const named = [];
    for (const point of points) {
      const [x, y] = place(point.at);
      const [dx, dy] = [point.off[view.across], point.off[view.up]];
      const size = Math.sqrt(dx * dx + dy * dy);
      const [tipX, tipY] = [x + dx * scale * factor, y - dy * scale * factor];
      if (size * scale * factor > SHORTEST_ARROW) svg.append(...arrow(x, y, tipX - x, tipY - y));
      taken.push({ left: Math.min(x, tipX) - 4, right: Math.max(x, tipX) + 4, top: Math.min(y, tipY) - 4, bottom: Math.max(y, tipY) + 4 });
      named.push({ x, y, point, size });
    }
    named.forEach(({ x, y, point }) => svg.append(markOf(x, y, point.sound)));
    for (const { x, y, point, size } of named) {
      const isArrow = size * scale * factor > SHORTEST_ARROW;
      const text = isArrow ? `${point.number}: ${view.text(size)}` : String(point.number);
      const box = roomFor(x, y, text.length * LETTER.width, taken, height);
      taken.push(box);
      svg.append(element("text", { x: short(box.left), y: short(box.bottom - 3), "font-size": LETTER.size }, text));
    }
    svg.append(...axes(height, view.names));
    return svg;
  }

  /** One factor for all views, so that arrows can be compared. @param {DrawnPoint[]} points @param {View[]} views */
  function factorFor(points, views) {
    const sizes = views.map((view) => {
      const { scale } = layOut(points, view);
      return factorOf(scale, Math.max(...points.map(({ off }) => Math.sqrt(off[view.across] ** 2 + off[view.up] ** 2))));
    });
    return Math.min(...sizes);
  }

  seambook.pointDrawing = { draw, factorFor };
})();
