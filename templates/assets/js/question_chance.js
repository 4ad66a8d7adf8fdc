/**
 * Chance that a short text decides: the same text gives the same choices on every machine, since only whole numbers of
 * 32 bits are worked with. Pure.
 *
 * The text is taken in by FNV-1a (Fowler, Noll and Vo: RFC 9923). From there a counter goes on by an odd number near 2^32 over
 * the golden section, and each of its values is mixed by the last steps of MurmurHash3 (Austin Appleby, public domain):
 * the way of SplitMix (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014), in 32 bits.
 */

/**
 * @typedef {{below: (count: number) => number, pick: <T>(list: ReadonlyArray<T>) => T, shuffle: <T>(list: ReadonlyArray<T>) => T[],
 *   some: <T>(list: ReadonlyArray<T>, count: number) => T[]}} Chance
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** @param {string} text */
  function taken(text) {
    let hash = 0x811c9dc5;
    for (const sign of new TextEncoder().encode(text)) hash = Math.imul(hash ^ sign, 0x01000193);
    return hash;
  }

  /** @param {number} value */
  function mixed(value) {
    let hash = Math.imul(value ^ (value >>> 16), 0x85ebca6b);
    hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
    return (hash ^ (hash >>> 16)) >>> 0;
  }

  /** @param {string} text @returns {Chance} */
  function of(text) {
    let at = taken(text);
    const below = (/** @type {number} */ count) => {
      at = (at + 0x9e3779b9) | 0;
      return Math.floor((mixed(at) / 0x100000000) * count);
    };
    /** @template T @param {ReadonlyArray<T>} list @returns {T[]} */
    const shuffle = (list) => {
      const mixedUp = list.slice();
      for (let n = mixedUp.length - 1; n > 0; n -= 1) {
        const other = below(n + 1);
        [mixedUp[n], mixedUp[other]] = [mixedUp[other], mixedUp[n]];
      }
      return mixedUp;
    };
    return { below, shuffle, pick: (list) => list[below(list.length)], some: (list, count) => shuffle(list).slice(0, count) };
  }

  seambook.questionChance = { of };
})();
