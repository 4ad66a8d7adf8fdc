/* The words of a label -> lines of a size at which all of them have room. Pure: how wide a text is, is asked for. */

/**
 * @typedef {{text: string, most: number, least: number, isBold?: boolean}} LabelText sizes in mm
 * @typedef {{text: string, size: number, isBold: boolean, y: number}} LabelLine its baseline in mm from the top
 * @typedef {(text: string, size: number, isBold: boolean) => number} LabelMeasure
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  const LEADING = 1.18;
  const BASELINE = 0.8;
  const STEPS = 24;
  /** How large a word may be, from least to most, that is broken between its letters. */
  const MOST_BROKEN = 0.4;

  /** Break a text between words; a word that has no room by itself between its letters. @param {string} text @param {number} room @param {(text: string) => number} widthOf */
  function wrap(text, room, widthOf) {
    /** @type {string[]} */
    const lines = [];
    for (const word of text.split(/\s+/).filter(Boolean)) {
      const last = lines.length ? `${lines[lines.length - 1]} ${word}` : "";
      if (last && widthOf(last) <= room) lines[lines.length - 1] = last;
      else lines.push(...broken(word, room, widthOf));
    }
    return lines;
  }

  /** @param {string} word @param {number} room @param {(text: string) => number} widthOf @returns {string[]} */
  function broken(word, room, widthOf) {
    const pieces = [""];
    for (const letter of word) {
      const last = pieces[pieces.length - 1];
      if (last && widthOf(last + letter) > room) pieces.push(letter);
      else pieces[pieces.length - 1] = last + letter;
    }
    return pieces;
  }

  /** Whether a text stays whole words at a size. @param {LabelText} part @param {number} size @param {number} room @param {LabelMeasure} measure */
  function keepsWords({ text, isBold }, size, room, measure) {
    return text.split(/\s+/).every((word) => measure(word, size, !!isBold) <= room);
  }

  /** @param {LabelText[]} parts @param {number} share from 0, the least size, to 1 @param {number} room @param {LabelMeasure} measure */
  function set(parts, share, room, measure) {
    /** @type {LabelLine[]} */
    const lines = [];
    let top = 0;
    let isWhole = true;
    for (const part of parts.filter(({ text }) => text.trim())) {
      const size = part.least + (part.most - part.least) * share;
      isWhole = isWhole && keepsWords(part, size, room, measure);
      for (const text of wrap(part.text, room, (one) => measure(one, size, !!part.isBold))) {
        lines.push({ text, size, isBold: !!part.isBold, y: top + size * BASELINE });
        top += size * LEADING;
      }
    }
    return { lines, height: top, isWhole };
  }

  /**
   * Set the parts below one another as large as there is room for. Words are broken where no size keeps them whole, and what
   * has no room even then is told by `fits`, since a name that is cut may be another's.
   * @param {LabelText[]} parts @param {number} width @param {number} height @param {LabelMeasure} measure
   * @returns {{lines: LabelLine[], fits: boolean, height: number}}
   */
  function fit(parts, width, height, measure) {
    const found = largest(parts, 1, (made) => made.isWhole) || largest(parts, MOST_BROKEN, () => true);
    if (found) return { lines: found.lines, fits: true, height: found.height };
    const made = set(parts, 0, width, measure);
    const lines = made.lines.filter(({ y, size }) => y - size * BASELINE + size * LEADING <= height);
    if (lines.length) lines[lines.length - 1] = { ...lines[lines.length - 1], text: `${lines[lines.length - 1].text.replace(/.$/u, "")}\u2026` };
    return { lines, fits: false, height };

    /** @param {LabelText[]} all @param {number} most @param {(made: {isWhole: boolean}) => boolean} isGood */
    function largest(all, most, isGood) {
      for (let step = Math.round(STEPS * most); step >= 0; step -= 1) {
        const one = set(all, step / STEPS, width, measure);
        if (one.height <= height && isGood(one)) return one;
      }
      return null;
    }
  }

  seambook.labelFit = { fit };
})();
