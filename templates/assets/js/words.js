/**
 * Text -> search words, by the builder's own rule (builder/search/words.py); and words one slip of the finger apart.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  const WORD = /[a-z0-9]+(?:[.][0-9]+)?(?:-[a-z0-9]+(?:[.][0-9]+)?)*/g;
  const LONGEST = 60;
  const NUMBERS = /^[0-9.-]+$/;
  const WITH_UNIT = /^([0-9]+)([a-z]+)$/;

  /** @param {string} text */
  function folded(text) {
    const spelled = text.replace(/([0-9]),(?=[0-9])/g, "$1.").replace(/[µμ]/g, "u").replace(/%/g, " percent ");
    return spelled.normalize("NFKD").replace(/\p{M}/gu, "");
  }

  /** @param {string} word @returns {string[]} */
  function partsOf(word) {
    const parts = word.split("-");
    if (parts.length > 1) return NUMBERS.test(word) ? parts : [...parts, parts.join("")];
    const parted = WITH_UNIT.exec(word);
    return parted ? [parted[1], parted[2]] : parts;
  }

  /** @param {string} text @returns {string[]} */
  function wordsOf(text) {
    return (folded(text.toLowerCase()).match(WORD) || []).flatMap(partsOf).map((word) => word.slice(0, LONGEST));
  }

  /**
   * Whether one letter put in, left out, changed or swapped with the next makes one word the other.
   * @param {string} one @param {string} other
   */
  function isSlip(one, other) {
    if (Math.abs(one.length - other.length) > 1 || one === other) return false;
    let at = 0;
    while (at < one.length && one[at] === other[at]) at += 1;
    let end = 0;
    const least = Math.min(one.length, other.length) - at;
    while (end < least && one[one.length - 1 - end] === other[other.length - 1 - end]) end += 1;
    if (least - end > 2) return false; // most words are told apart by now, with nothing cut out of them
    const [rest, its] = [one.slice(at), other.slice(at)];
    return (
      rest.slice(1) === its.slice(1) ||
      rest.slice(1) === its ||
      rest === its.slice(1) ||
      (rest[0] === its[1] && rest[1] === its[0] && rest.slice(2) === its.slice(2))
    );
  }

  seambook.words = { isSlip: isSlip, wordsOf: wordsOf };
})();
