/**
 * The pieces of paper that together are a seam's strip, cut where no weld is. Needs weld_places.js. The builder's
 * `render/drawings/pieces.py` cuts the same. All in mm from the seam's front end.
 */

/**
 * @typedef {{segment: number, number: number, place: number}} Cross
 * @typedef {{segment: number, place: number}} Border
 * @typedef {{number: number, start: number, end: number, isLast: boolean, crosses: Cross[], factory: number[],
 *   borders: Border[]}} Piece
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { planned, factory: factoryPlaces } = seambook.weldPlaces;
  const [LONGEST, SHIFT, CLEAR, HAIR] = [244, 40, 6, 1e-6];

  /** @param {LaidSegment[]} segments @returns {Piece[]} */
  function pieces(segments) {
    const { crosses, factory, borders, total } = gather(segments);
    const kept = [...crosses, ...borders].map(({ place }) => place);
    /** @type {Piece[]} */
    const found = [];
    let start = 0;
    while (!found.length || start < total - HAIR) {
      const from = start;
      const end = cut(from, total, kept);
      const isLast = end >= total - HAIR;
      /** @param {number} place @param {boolean} isWhole */
      const isOn = (place, isWhole) => from - HAIR <= place && (isWhole || place < end - HAIR);
      found.push({
        number: found.length + 1, start: from, end, isLast, crosses: crosses.filter(({ place }) => isOn(place, isLast)),
        factory: factory.filter((place) => isOn(place, isLast)), borders: borders.filter(({ place }) => isOn(place, false)),
      });
      start = end;
    }
    return found;
  }

  /** @param {LaidSegment[]} segments */
  function gather(segments) {
    /** @type {{crosses: Cross[], factory: number[], borders: Border[], total: number}} */
    const all = { crosses: [], factory: [], borders: [], total: 0 };
    segments.forEach((segment, at) => {
      const start = all.total;
      all.borders.push({ segment: at, place: start });
      /** @type {number[]} */
      const places = planned(segment);
      all.crosses.push(...places.map((place, index) => ({ segment: at, number: index + 1, place: start + place })));
      /** @type {number[]} */
      const before = factoryPlaces(segment);
      all.factory.push(...before.map((place) => start + place));
      all.total += segment.length;
    });
    return all;
  }

  /** So that the pieces are about as long as one another, moved a little to where nothing is near.
   * @param {number} start @param {number} total @param {number[]} kept */
  function cut(start, total, kept) {
    if (total - start <= LONGEST + HAIR) return total;
    const count = Math.ceil((total - start) / LONGEST - HAIR);
    const middle = start + (total - start) / count;
    const near = kept.filter((place) => Math.abs(place - middle) < SHIFT + CLEAR);
    // First where no piece more is needed for it, then anywhere.
    for (const least of [total - (count - 1) * LONGEST, start]) {
      for (let step = 0; step <= 2 * SHIFT; step += 1) {
        const end = middle + Math.floor((step + 1) / 2) * (step % 2 ? 1 : -1);
        const fits = least <= end && end <= start + LONGEST;
        if (fits && near.every((place) => Math.abs(place - end) >= CLEAR)) return end;
      }
    }
    return middle;
  }

  seambook.pieces = pieces;
})();
