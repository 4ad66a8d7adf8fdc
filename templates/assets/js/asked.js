/**
 * A question -> the things it asks for, each by every name and spelling that the book has for it.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const { isSlip, wordsOf } = seambook.words;
  const { placeOf, shardsOfWord } = seambook.shardsOfIndex;

  /**
   * @typedef {{words: string[], pages: number, common: Set<number>, names: string[][][], quiet: Set<string>}} Index
   *   See shards.js.
   * @typedef {[number, number]} Meant  A word of the book, by its number, and how surely it is the one meant.
   * @typedef {{sure: number, words: Meant[][]}} Name  For each of a name's words what it means.
   * @typedef {{names: Name[], words: string[], isQuiet: boolean}} Thing
   *   The name asked for first, then others; `words` are those typed.
   */

  const PREFIX = 0.481;
  const OTHER_NAME = 0.756;
  const OTHER_NUMBER = 0.8;
  const OTHER_FORM = 0.297;
  const PARTED = 0.571;
  /** Two words that the book writes as one too: both stand for what was typed, which may be two things. */
  const AS_TYPED = 0.8;
  const SLIP = 1;
  /** A shorter word with a slip in it could be too many others. */
  const SHORTEST_SLIP = 4;
  /** A word just begun may go on in many ways; those in so many shards are looked at. */
  const MOST_SHARDS = 6;
  const SHORTEST_STEM = 3;
  const ENDINGS = ["ing", "ed", "es", "s", "d", "er"];
  const NUMBER = /^[0-9]/;

  /** @param {Index} index @param {string} word @returns {number} its number, or -1 */
  function numberOf(index, word) {
    const at = placeOf(index.words, word);
    return index.words[at] === word ? at : -1;
  }

  /** @param {string} word */
  function lastOf(word) {
    return word[word.length - 1];
  }

  /** @param {string} word @returns {string[]} what it is a form of, itself among them */
  function stemsOf(word) {
    const cut = ENDINGS.filter((ending) => word.endsWith(ending) && word.length - ending.length >= SHORTEST_STEM);
    const stems = cut.map((ending) => word.slice(0, -ending.length));
    const doubled = stems.filter((stem) => stem.length > SHORTEST_STEM && lastOf(stem) === stem[stem.length - 2])
      .map((stem) => stem.slice(0, -1));
    return [word, ...stems, ...doubled];
  }

  /** Forms of a word that the book has: weld, welds, welded, welding. @param {Index} index @param {string} word */
  function formsOf(index, word) {
    /** @type {Meant[]} */
    const found = [];
    if (NUMBER.test(word) || word.length < SHORTEST_STEM) return found;
    const forms = stemsOf(word).flatMap((stem) => [
      stem, `${stem}e`, ...ENDINGS.map((ending) => stem + ending), `${stem}${lastOf(stem)}ed`, `${stem}${lastOf(stem)}ing`,
    ]);
    new Set(forms).forEach((form) => {
      const at = form === word ? -1 : numberOf(index, form);
      if (at >= 0) found.push([at, form === `${word}s` || word === `${form}s` ? OTHER_NUMBER : OTHER_FORM]);
    });
    return found;
  }

  /**
   * Words that begin as an unfinished one does.
   * @param {Index} index @param {string} word @returns {Meant[]}
   */
  function begunWith(index, word) {
    /** @type {Meant[]} */
    const found = [];
    const shards = new Set();
    for (let at = placeOf(index.words, word); at < index.words.length && index.words[at].startsWith(word); at += 1) {
      shardsOfWord(index, at).forEach((/** @type {string} */ shard) => shards.add(shard));
      if (shards.size > MOST_SHARDS) break;
      if (index.words[at] !== word) found.push([at, PREFIX]);
    }
    return found;
  }

  /**
   * The words of the book that a word means.
   * @param {Index} index @param {string} word @param {boolean} isUnfinished @returns {Meant[]}
   */
  function meant(index, word, isUnfinished) {
    const own = numberOf(index, word);
    const forms = formsOf(index, word);
    /** @type {Map<number, number>} */
    const found = new Map(isUnfinished ? begunWith(index, word) : []);
    forms.forEach(([at, sure]) => found.set(at, sure));
    if (own >= 0) found.set(own, 1);
    if (found.size === 0 && word.length >= SHORTEST_SLIP && !NUMBER.test(word)) {
      index.words.forEach((one, at) => {
        if (isSlip(word, one)) found.set(at, SLIP);
      });
    }
    return [...found];
  }

  /** @param {string[]} words @param {number} from @param {string[]} name */
  function standsAt(words, from, name) {
    return name.every((word, at) => words[from + at] === word);
  }

  /** All names of what a name names. @param {Index} index @param {string[]} name @returns {string[][]} */
  function otherNames(index, name) {
    const own = name.join(" ");
    const known = index.names.filter((names) => names.some((one) => one.join(" ") === own)).flat();
    return known.filter((one) => one.join(" ") !== own);
  }

  /**
   * A number with its unit is one word of the book, by any name of the unit.
   * @param {Index} index @param {string[]} words @param {number} at
   */
  function quantityAt(index, words, at) {
    const unit = words[at + 1];
    if (!NUMBER.test(words[at]) || unit === undefined || NUMBER.test(unit)) return null;
    const units = [[unit], ...otherNames(index, [unit])].filter((name) => name.length === 1);
    return units.map(([one]) => words[at] + one).find((word) => numberOf(index, word) >= 0) || null;
  }

  /** Two words that the book writes as one. @param {Index} index @param {string[]} words @param {number} at */
  function joinedAt(index, words, at) {
    const joined = words[at] + words[at + 1];
    const apart = index.quiet.has(words[at]) || index.quiet.has(words[at + 1]) || joined.length < 6;
    const isOne = [joined, `${joined}s`].some((word) => numberOf(index, word) >= 0);
    return words[at + 1] !== undefined && !apart && !NUMBER.test(joined) && isOne ? joined : null;
  }

  /** One word that the book writes as two. @param {Index} index @param {string} word */
  function partedFrom(index, word) {
    for (let at = SHORTEST_STEM; at <= word.length - SHORTEST_STEM; at += 1) {
      const parts = [word.slice(0, at), word.slice(at)];
      if (parts.every((part) => numberOf(index, part) >= 0)) return parts;
    }
    return null;
  }

  /**
   * The longest known name at a place of the question, or its word.
   * @param {Index} index @param {string[]} words @param {number} at
   */
  function nameAt(index, words, at) {
    const known = index.names.flat().filter((name) => standsAt(words, at, name));
    return known.reduce((best, one) => (one.length > best.length ? one : best), [words[at]]);
  }

  /**
   * @param {Index} index @param {string[]} words @param {boolean} isUnfinished @param {number} at
   * @returns {{length: number, names: [number, string[]][]}} how many of the words it takes, and its names
   */
  function thingAt(index, words, isUnfinished, at) {
    const name = nameAt(index, words, at);
    const quantity = quantityAt(index, words, at);
    const pair = words.slice(at, at + 2);
    if (quantity) return { length: 2, names: [[1, [quantity]], [PARTED, pair]] };
    /** @type {[number, string[]][]} */
    const others = otherNames(index, name).map((one) => [OTHER_NAME, one]);
    const joined = name.length === 1 && joinedAt(index, words, at);
    if (joined) return { length: 2, names: [[1, [joined]], [AS_TYPED, pair], ...others] };
    const isBegun = isUnfinished && at === words.length - 1 && begunWith(index, name[0]).length > 0;
    const isKnown = name.length > 1 || isBegun || numberOf(index, name[0]) >= 0;
    const parts = isKnown ? null : partedFrom(index, name[0]);
    if (parts) {
      others.push([1, parts]);
      otherNames(index, parts).forEach((one) => others.push([OTHER_NAME, one]));
    }
    return { length: name.length, names: [[1, name], ...others] };
  }

  /**
   * What is asked for, thing by thing, each once. Words on most pages of a large book are left out if others are asked.
   * @param {Index} index @param {string} text @returns {Thing[]}
   */
  function thingsIn(index, text) {
    /** @type {string[]} */
    const words = wordsOf(text);
    const isUnfinished = !/\s$/.test(text);
    /** @type {Map<string, Thing>} */
    const found = new Map();
    for (let at = 0; at < words.length; ) {
      const { length, names } = thingAt(index, words, isUnfinished, at);
      const isLast = isUnfinished && at + length >= words.length;
      const typed = words.slice(at, at + length);
      at += length;
      const known = names.map(([sure, name], nth) => ({
        sure: sure,
        words: name.map((word, place) => meant(index, word, isLast && nth === 0 && place === name.length - 1)),
      })).filter((name) => name.words.every((one) => one.length > 0));
      const isQuiet = typed.every((word) => index.quiet.has(word));
      if (known.length) found.set(typed.join(" "), { names: known, words: typed, isQuiet: isQuiet });
    }
    const each = [...found.values()];
    const telling = each.filter((thing) => !isCommon(index, thing));
    return telling.length ? telling : each;
  }

  /** Whether a thing is on most pages, and tells none from another. @param {Index} index @param {Thing} thing */
  function isCommon(index, thing) {
    return thing.words.every((word) => isCommonWord(index, word));
  }

  /** @param {Index} index @param {string} word */
  function isCommonWord(index, word) {
    return index.common.has(numberOf(index, word));
  }

  seambook.asked = { isCommonWord: isCommonWord, thingsIn: thingsIn };
})();
