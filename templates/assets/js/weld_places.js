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

  /**
   * Take what the event `seambook:respaced` says of a segment; whether it fits one of these.
   *
   * Its detail holds the segment, counted from 1, the method, the row, or null where there is none, and `isStopped` where
   * a limit stops the method at the measured length; without it what was stopped stays so.
   * @param {{method: string, segments: LaidSegment[], stopped: string, notPlanned: string}} data @param {any} detail
   */
  function respace(data, { segment, method, row, isStopped }) {
    const found = data.segments[segment - 1];
    if (data.method !== method || !found) return false;
    const stops = isStopped === undefined ? !found.row && found.why === data.stopped : isStopped;
    if (row) found.length = row.length;
    found.row = stops ? null : row;
    found.why = found.row ? "" : stops ? data.stopped : data.notPlanned;
    return true;
  }

  seambook.weldPlaces = { MOST, planned, factory, respace };
})();
