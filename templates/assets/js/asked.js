/**
 * A question -> the things it asks for, each by every name and spelling that the book has for it.
 */

/**
 * @typedef {[string, number]} Meant  A word of the book, and how surely it is the one meant.
 * @typedef {{sure: number, words: Meant[][]}} ThingName  For each of a name's words what it means.
 * @typedef {{names: ThingName[], words: string[], isQuiet: boolean, isCommon: boolean}} Thing
 *   The name asked for first, then others; `words` are those typed. What is common is on
 *   most pages of a large book, and something else is asked for too: it adds no page, and tells by titles alone.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const { isSlip, wordsOf } = seambook.words;
  const { begunWith, has, isThere, lettered, shardOfWord } = seambook.shardsOfIndex;

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
  const MOST_ENDINGS = 48;
  const SHORTEST_STEM = 3;
  const ENDINGS = ["ing", "ed", "es", "s", "d", "er"];
  const NUMBER = /^[0-9]/;

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

  /**
   * Forms of a word that the book has: weld, welds, welded, welding.
   * @param {SearchIndex} index
   * @param {string} word
   */
  function formsOf(index, word) {
    /** @type {Meant[]} */
    const found = [];
    if (NUMBER.test(word) || word.length < SHORTEST_STEM) return found;
    const forms = stemsOf(word).flatMap((stem) => [
      stem, `${stem}e`, ...ENDINGS.map((ending) => stem + ending),
      `${stem}${lastOf(stem)}ed`, `${stem}${lastOf(stem)}ing`,
    ]);
    new Set(forms).forEach((form) => {
      const isOther = form !== word && has(index, form);
      if (isOther) found.push([form, form === `${word}s` || word === `${form}s` ? OTHER_NUMBER : OTHER_FORM]);
    });
    return found;
  }

  /**
   * Words that begin as an unfinished one does.
   * @param {SearchIndex} index @param {string} word @returns {Meant[]}
   */
  function goingOn(index, word) {
    /** @type {Meant[]} */
    const found = [];
    const shards = new Set();
    for (const one of begunWith(index, word)) {
      shards.add(shardOfWord(index, one));
      if (shards.size > MOST_SHARDS || found.length === MOST_ENDINGS) break;
      if (one !== word) found.push([one, PREFIX]);
    }
    return found;
  }

  /**
   * The words of the book that a word means.
   * @param {SearchIndex} index @param {string} word @param {boolean} isUnfinished @returns {Meant[]}
   */
  function meant(index, word, isUnfinished) {
    const forms = formsOf(index, word);
    /** @type {Map<string, number>} */
    const found = new Map(isUnfinished ? goingOn(index, word) : []);
    forms.forEach(([form, sure]) => found.set(form, sure));
    if (has(index, word)) found.set(word, 1);
    if (found.size === 0 && word.length >= SHORTEST_SLIP && !NUMBER.test(word) && isThere(index)) {
      for (const one of lettered(index)) if (isSlip(word, one)) found.set(one, SLIP);
    }
    return [...found];
  }

  /** All names of what a name names. @param {SearchIndex} index @param {string[]} name @returns {string[][]} */
  function otherNames(index, name) {
    const own = name.join(" ");
    return (index.names.get(own) || []).filter((one) => one.join(" ") !== own);
  }

  /**
   * A number with its unit is one word of the book, by any name of the unit.
   * @param {SearchIndex} index @param {string[]} words @param {number} at
   */
  function quantityAt(index, words, at) {
    const unit = words[at + 1];
    if (!NUMBER.test(words[at]) || unit === undefined || NUMBER.test(unit)) return null;
    const units = [[unit], ...otherNames(index, [unit])].filter((name) => name.length === 1);
    return units.map(([one]) => words[at] + one).find((word) => has(index, word)) || null;
  }

  /** Two words that the book writes as one. @param {SearchIndex} index @param {string[]} words @param {number} at */
  function joinedAt(index, words, at) {
    const joined = words[at] + words[at + 1];
    const apart = index.quiet.has(words[at]) || index.quiet.has(words[at + 1]) || joined.length < 6;
    const isOne = [joined, `${joined}s`].some((word) => has(index, word));
    return words[at + 1] !== undefined && !apart && !NUMBER.test(joined) && isOne ? joined : null;
  }

  /** One word that the book writes as two. @param {SearchIndex} index @param {string} word */
  function partedFrom(index, word) {
    for (let at = SHORTEST_STEM; at <= word.length - SHORTEST_STEM; at += 1) {
      const parts = [word.slice(0, at), word.slice(at)];
      if (parts.every((part) => has(index, part))) return parts;
    }
    return null;
  }

  /**
   * The longest known name at a place of the question, or its word.
   * @param {SearchIndex} index @param {string[]} words @param {number} at
   */
  function nameAt(index, words, at) {
    for (let length = Math.min(index.longest, words.length - at); length > 1; length -= 1) {
      const name = words.slice(at, at + length);
      if (index.names.has(name.join(" "))) return name;
    }
    return [words[at]];
  }

  /**
   * @param {SearchIndex} index @param {string[]} words @param {boolean} isUnfinished @param {number} at
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
    const isBegun = isUnfinished && at === words.length - 1 && goingOn(index, name[0]).length > 0;
    const isKnown = name.length > 1 || isBegun || has(index, name[0]);
    const parts = isKnown || !isThere(index) ? null : partedFrom(index, name[0]);
    if (parts) {
      others.push([1, parts]);
      otherNames(index, parts).forEach((one) => others.push([OTHER_NAME, one]));
    }
    return { length: name.length, names: [[1, name], ...others] };
  }

  /**
   * What is asked for, thing by thing, each once. Quiet words on most pages of a large book are left out if others are
   * asked.
   * @param {SearchIndex} index @param {string} text @returns {Thing[]}
   */
  function thingsIn(index, text) {
    if (index.asked?.text === text) return index.asked.things;
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
      const isCommon = typed.every((word) => isCommonWord(index, word));
      const thing = { names: known, words: typed, isQuiet: isQuiet, isCommon: isCommon };
      if (known.length) found.set(typed.join(" "), thing);
    }
    const each = [...found.values()];
    const isTold = each.some((thing) => !thing.isCommon);
    const things = isTold
      ? each.filter((thing) => !thing.isCommon || !thing.isQuiet)
      : each.map((thing) => ({ ...thing, isCommon: false }));
    if (isThere(index)) index.asked = { text: text, things: things };
    return things;
  }

  /** @param {SearchIndex} index @param {string} word */
  function isCommonWord(index, word) {
    return index.common.has(word);
  }

  seambook.asked = { isCommonWord: isCommonWord, thingsIn: thingsIn };
})();
