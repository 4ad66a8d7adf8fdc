/**
 * Where the welds of a segment are, in mm from its front end. The builder's `model/laid.py` means the same.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const MOST = 1000;

  /** @param {LaidSegment} segment @returns {number[]} */
  function planned({ row }) {
    return row ? Array.from({ length: Math.min(row.count, MOST) }, (_, index) => row.first + row.spacing * index) : [];
  }

  /** The factory's, taken as even between the plan's own ends. @param {LaidSegment} segment @returns {number[]} */
  function factory({ length, factory: told, row }) {
    const count = Math.min(told || 0, MOST);
    const end = row ? row.first : 0;
    const isBetween = count > 1 && end > 0 && end < length / 2;
    return Array.from({ length: count }, (_, index) =>
      isBetween ? end + ((length - 2 * end) * index) / (count - 1) : (length * (index + 0.5)) / count
    );
  }

  seambook.weldPlaces = { MOST, planned, factory };
})();
