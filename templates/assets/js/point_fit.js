/**
 * Two places of each point, fitted over each other as rigid bodies: the turn and shift, every point's deviation, and the
 * numbers that formulas may use. Touches no page. The builder's `formula/points` does the same operations in the same
 * order, so that paper and phone give the same bits: square roots are exact in both, hypot and sums of arrays are not.
 */

/**
 * @typedef {{stated: Place, measured: Place}} Pair
 * @typedef {{quaternion: number[], rotation: number[][], shift: Place, breadth: number}} Fit
 * @typedef {{name: string, sound: boolean, off: Place, length: number, isBeyond: boolean, alone: number | null,
 *   rest: number | null, isDoubtful: boolean, isFirst: boolean}} Deviation
 * @typedef {{deviations: Deviation[], fit: Fit | null, facts: Record<string, number>, refused: string}} Fitted
 */

(function () {
  "use strict";

  const page = /** @type {any} */ (window);
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const MOST_SWEEPS = 60;
  const LEAST_POINTS = 3;
  const SAME = 1e-9;
  const AXES = [0, 1, 2];

  // Eigenvalues by Jacobi's rotations.

  /** @param {number[][]} a @param {number[][]} vectors @param {number} p @param {number} q */
  function turn(a, vectors, p, q) {
    const between = a[p][q];
    if (between === 0) return;
    const [first, second, size] = [Math.abs(a[p][p]), Math.abs(a[q][q]), Math.abs(between)];
    if (first + size === first && second + size === second) {
      // Too small to change either value: it is rounding and would only be turned about.
      a[p][q] = a[q][p] = 0;
      return;
    }
    const theta = (a[q][q] - a[p][p]) / (2 * between);
    const tangent = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
    const cosine = 1 / Math.sqrt(tangent * tangent + 1);
    const sine = tangent * cosine;
    a[p][p] -= tangent * between;
    a[q][q] += tangent * between;
    a[p][q] = a[q][p] = 0;
    for (let row = 0; row < a.length; row += 1) {
      if (row !== p && row !== q) {
        const [along, across] = [a[row][p], a[row][q]];
        a[row][p] = a[p][row] = cosine * along - sine * across;
        a[row][q] = a[q][row] = sine * along + cosine * across;
      }
      const [along, across] = [vectors[row][p], vectors[row][q]];
      vectors[row][p] = cosine * along - sine * across;
      vectors[row][q] = sine * along + cosine * across;
    }
  }

  /** The eigenvalues of a symmetric matrix, the largest first, each with its vector. @param {number[][]} symmetric */
  function eigen(symmetric) {
    const size = symmetric.length;
    const a = symmetric.map((row) => row.slice());
    const vectors = symmetric.map((_, row) => symmetric.map((_, column) => (row === column ? 1 : 0)));
    for (let sweep = 0; sweep < MOST_SWEEPS; sweep += 1) {
      if (a.every((row, p) => row.every((value, q) => q <= p || value === 0))) break;
      for (let p = 0; p < size; p += 1) {
        for (let q = p + 1; q < size; q += 1) turn(a, vectors, p, q);
      }
    }
    const order = a.map((_, at) => at).sort((one, other) => a[other][other] - a[one][one]);
    return { values: order.map((at) => a[at][at]), vectors: order.map((at) => vectors.map((row) => row[at])) };
  }

  // The fit: Horn's closed form with a unit quaternion, which is never a mirror image.

  /** @param {number[][]} r @param {number[]} place @returns {Place} */
  function times(r, place) {
    const [x, y, z] = place;
    return [
      r[0][0] * x + r[0][1] * y + r[0][2] * z,
      r[1][0] * x + r[1][1] * y + r[1][2] * z,
      r[2][0] * x + r[2][1] * y + r[2][2] * z,
    ];
  }

  /** @param {Place[]} places @returns {Place} */
  function centre(places) {
    let [x, y, z] = [0, 0, 0];
    for (const place of places) [x, y, z] = [x + place[0], y + place[1], z + place[2]];
    return [x / places.length, y / places.length, z / places.length];
  }

  /** @param {number[]} difference */
  function lengthOf([x, y, z]) {
    return Math.sqrt(x * x + y * y + z * z);
  }

  /** The second largest over the largest spread: 0 on one line. @param {Place[]} places @param {Place} middle */
  function breadthOf(places, middle) {
    const spread = AXES.map(() => [0, 0, 0]);
    for (const place of places) {
      const off = AXES.map((axis) => place[axis] - middle[axis]);
      for (const row of AXES) for (const column of AXES) spread[row][column] += off[row] * off[column];
    }
    const { values } = eigen(spread);
    return values[0] > 0 ? Math.sqrt(Math.max(values[1], 0) / values[0]) : 0;
  }

  /** @param {Pair[]} pairs @param {Place} to @param {Place} from */
  function quaternionMatrix(pairs, to, from) {
    const s = AXES.map(() => [0, 0, 0]);
    for (const { stated, measured } of pairs) {
      for (const row of AXES) {
        for (const column of AXES) s[row][column] += (measured[row] - from[row]) * (stated[column] - to[column]);
      }
    }
    const [[xx, xy, xz], [yx, yy, yz], [zx, zy, zz]] = s;
    return [
      [xx + yy + zz, yz - zy, zx - xz, xy - yx],
      [yz - zy, xx - yy - zz, xy + yx, zx + xz],
      [zx - xz, xy + yx, -xx + yy - zz, yz + zy],
      [xy - yx, zx + xz, yz + zy, -xx - yy + zz],
    ];
  }

  /** @param {number[]} quaternion */
  function rotationOf([w, x, y, z]) {
    return [
      [w * w + x * x - y * y - z * z, 2 * (x * y - w * z), 2 * (x * z + w * y)],
      [2 * (x * y + w * z), w * w - x * x + y * y - z * z, 2 * (y * z - w * x)],
      [2 * (x * z - w * y), 2 * (y * z + w * x), w * w - x * x - y * y + z * z],
    ];
  }

  /** Fit, or say which refusal holds: few, line or undecided. @param {Pair[]} pairs @param {number} leastBreadth
   * @returns {Fit | string} */
  function fit(pairs, leastBreadth) {
    if (pairs.length < LEAST_POINTS) return "few";
    const stated = pairs.map((pair) => pair.stated);
    const measured = pairs.map((pair) => pair.measured);
    const [to, from] = [centre(stated), centre(measured)];
    const breadth = Math.min(breadthOf(stated, to), breadthOf(measured, from));
    if (!(breadth >= leastBreadth) || breadth === 0) return "line";
    const { values, vectors } = eigen(quaternionMatrix(pairs, to, from));
    if (!(values[0] - values[1] > SAME * Math.abs(values[0]))) return "undecided";
    const rotation = rotationOf(vectors[0]);
    const turned = times(rotation, from);
    const shift = /** @type {Place} */ (AXES.map((axis) => to[axis] - turned[axis]));
    return { quaternion: vectors[0], rotation, shift, breadth };
  }

  /** @param {Pair} pair @param {Fit} found @returns {Place} */
  function offOf(pair, found) {
    const moved = times(found.rotation, pair.measured);
    return /** @type {Place} */ (AXES.map((axis) => moved[axis] + found.shift[axis] - pair.stated[axis]));
  }

  /** @param {number[]} lengths */
  function rmsOf(lengths) {
    let total = 0;
    for (const one of lengths) total += one * one;
    return Math.sqrt(total / lengths.length);
  }

  // What comes of it.

  /** Fit without one sound point. @param {Pair[]} sound @param {number} at @param {number} leastBreadth */
  function without(sound, at, leastBreadth) {
    const others = sound.filter((_, place) => place !== at);
    const found = fit(others, leastBreadth);
    if (typeof found === "string") return { alone: null, rest: null };
    return { alone: lengthOf(offOf(sound[at], found)), rest: rmsOf(others.map((pair) => lengthOf(offOf(pair, found)))) };
  }

  /** @param {MeasuredPoint} point @param {number | null} mirror @returns {MeasuredPoint} */
  function turnedRound(point, mirror) {
    if (mirror === null) return point;
    const stated = /** @type {Place} */ (point.stated.map((value, axis) => (axis === mirror ? -value : value)));
    return Object.assign({}, point, { stated });
  }

  /**
   * Fit on the sound points and report every one; `mirror` is the axis that is turned round first.
   * @param {MeasuredPoint[]} points @param {number} tolerance @param {number} leastBreadth @param {number | null} mirror
   * @returns {Fitted}
   */
  function compare(points, tolerance, leastBreadth, mirror) {
    const shown = points.map((point) => turnedRound(point, mirror));
    const sound = shown.filter((point) => point.sound);
    const found = fit(sound, leastBreadth);
    if (typeof found === "string") return { deviations: [], fit: null, facts: {}, refused: found };
    const most = tolerance * (1 + SAME);
    /** @type {Deviation[]} */
    const rows = shown.map((point) => {
      const off = offOf(point, found);
      const tried = point.sound ? without(sound, sound.indexOf(point), leastBreadth) : { alone: null, rest: null };
      const length = lengthOf(off);
      const isDoubtful = tried.alone !== null && tried.alone > most;
      return { name: point.name, sound: point.sound, off, length, isBeyond: length > most, ...tried, isDoubtful, isFirst: false };
    });
    const doubtful = rows.filter((row) => row.isDoubtful);
    const least = Math.min(...doubtful.map((row) => Number(row.rest)));
    const first = doubtful.find((row) => row.rest === least);
    if (first) first.isFirst = true;
    return { deviations: rows, fit: found, facts: factsOf(shown, rows, found), refused: "" };
  }

  /** @param {MeasuredPoint[]} points @param {Deviation[]} rows @param {Fit} found @returns {Record<string, number>} */
  function factsOf(points, rows, found) {
    const every = rows.map((row) => row.length);
    const sound = rows.filter((row) => row.sound).map((row) => row.length);
    const r = found.rotation;
    const [w, x, y, z] = found.quaternion;
    return {
      points: rows.length,
      sound: sound.length,
      tried: rows.filter((row) => row.alone !== null).length,
      doubtful: rows.filter((row) => row.isDoubtful).length,
      beyond: rows.filter((row) => row.isBeyond).length,
      breadth: found.breadth,
      reach: reachOf(points),
      turn: 2 * Math.atan2(lengthOf([x, y, z]), Math.abs(w)),
      turn_x: Math.atan2(r[2][1], r[2][2]),
      turn_y: Math.atan2(-r[2][0], Math.sqrt(r[0][0] * r[0][0] + r[1][0] * r[1][0])),
      turn_z: Math.atan2(r[1][0], r[0][0]),
      rms: rmsOf(sound),
      rms_all: rmsOf(every),
      largest: Math.max(...every),
      largest_sound: Math.max(...sound),
      shift_x: found.shift[0],
      shift_y: found.shift[1],
      shift_z: found.shift[2],
    };
  }

  /** How far out the sound points reach, as a share of how far out any point lies. @param {MeasuredPoint[]} points */
  function reachOf(points) {
    const middle = centre(points.filter((point) => point.sound).map((point) => point.stated));
    const away = points.map((point) => lengthOf(AXES.map((axis) => point.stated[axis] - middle[axis])));
    return Math.max(...away.filter((_, at) => points[at].sound)) / Math.max(...away);
  }

  seambook.pointFit = { eigen, fit, compare };
})();
