/**
 * Questions -> the passages of the book that answer them, without the page: the index read, words known by their other
 * names and through one slip of the finger, and the pages in order.
 * The index's form is told in builder/search/index.py, its words in builder/search/words.py.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{
   *   pages: string[][], passages: string[][], words: string[], postings: string[], names: string[][][]
   * }} Index
   *   `names` holds, for each thing with several names, the words of each name.
   * @typedef {{path: string, kind: string, title: string, anchor: string, heading: string, score: number}} Found
   * @typedef {{names: string[][], isLast: boolean}} Asked  One thing asked for: its name as asked first, then others.
   * @typedef {Map<number, number>} Weights  Passages, each with its weight.
   */

  const TITLE_WEIGHT = 4;
  const PREFIX_WEIGHT = 0.5;
  const NAME_WEIGHT = 0.8;
  const SLIP_WEIGHT = 0.4;
  /** A shorter word with a slip in it could be too many others. */
  const SHORTEST_SLIP = 4;
  /** More than any passage's score: everything found counts before how well it is found. */
  const HELD = 1000;
  /** What a title is worth that was typed in full: more than any score, less than a thing more that is held. */
  const TYPED = 900;
  const WORD = /[a-z0-9]+(?:[.][0-9]+)?(?:-[a-z0-9]+(?:[.][0-9]+)?)*/g;
  const NUMBER = /^[0-9]/;

  /** @param {string} text @returns {string[]} its words, by the builder's own rule */
  function wordsOf(text) {
    const folded = text.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "");
    return (folded.match(WORD) || []).flatMap((word) => {
      const parts = word.split("-");
      return parts.length > 1 ? [...parts, parts.join("")] : parts;
    });
  }

  /** @param {Record<"pages" | "passages" | "words" | "postings" | "names", string>} raw @returns {Index} */
  function unpack(raw) {
    const rows = (/** @type {string} */ text) => (text ? text.split("\n") : []);
    return {
      pages: rows(raw.pages).map((row) => row.split("\t")),
      passages: rows(raw.passages).map((row) => row.split("\t")),
      words: rows(raw.words),
      postings: rows(raw.postings),
      names: rows(raw.names).map((row) => row.split("\t").map((name) => name.split(" "))),
    };
  }

  /** The first place in a sorted list that is not before the word. @param {string[]} words @param {string} word */
  function placeOf(words, word) {
    let low = 0;
    let high = words.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (words[middle] < word) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /**
   * Whether one letter put in, left out, changed or swapped with the next makes one word the other.
   * @param {string} one @param {string} other
   */
  function isSlip(one, other) {
    if (Math.abs(one.length - other.length) > 1 || one === other) return false;
    let at = 0;
    while (at < one.length && one[at] === other[at]) at += 1;
    const [rest, its] = [one.slice(at), other.slice(at)];
    return (
      rest.slice(1) === its.slice(1) ||
      rest.slice(1) === its ||
      rest === its.slice(1) ||
      (rest[0] === its[1] && rest[1] === its[0] && rest.slice(2) === its.slice(2))
    );
  }

  /**
   * The places in the list of words that a word means, each with its weight.
   * @param {Index} index @param {string} word @param {boolean} isUnfinished
   */
  function meant(index, word, isUnfinished) {
    /** @type {[number, number][]} */
    const found = [];
    for (let at = placeOf(index.words, word); at < index.words.length; at += 1) {
      if (index.words[at] === word) found.push([at, 1]);
      else if (isUnfinished && index.words[at].startsWith(word)) found.push([at, PREFIX_WEIGHT]);
      else break;
    }
    if (found.length === 0 && word.length >= SHORTEST_SLIP && !NUMBER.test(word)) {
      index.words.forEach((one, at) => {
        if (isSlip(word, one)) found.push([at, SLIP_WEIGHT]);
      });
    }
    return found;
  }

  /**
   * The passages a word stands in; rarer words weigh more.
   * @param {Index} index @param {string} word @param {boolean} isUnfinished longer words that begin so count too
   * @returns {Weights}
   */
  function passagesWith(index, word, isUnfinished) {
    /** @type {Weights} */
    const found = new Map();
    meant(index, word, isUnfinished).forEach(([at, share]) => {
      const gaps = index.postings[at].split(" ");
      const rarity = Math.log(1 + index.passages.length / gaps.length) * share;
      let passage = 0;
      for (const gap of gaps) {
        passage += parseInt(gap, 36);
        const weight = rarity * (gap.endsWith("*") ? TITLE_WEIGHT : 1);
        found.set(passage, Math.max(found.get(passage) || 0, weight));
      }
    });
    return found;
  }

  /**
   * The passages that hold every word of a name.
   * @param {Index} index @param {string[]} name @param {boolean} isUnfinished @returns {Weights}
   */
  function passagesNaming(index, name, isUnfinished) {
    const each = name.map((word, at) => passagesWith(index, word, isUnfinished && at === name.length - 1));
    /** @type {Weights} */
    const found = new Map();
    each[0].forEach((_, passage) => {
      const weights = each.map((one) => one.get(passage) || 0);
      if (Math.min(...weights) > 0) found.set(passage, weights.reduce((a, b) => a + b) / weights.length);
    });
    return found;
  }

  /**
   * The passages that hold a thing by any of its names.
   * @param {Index} index @param {Asked} asked @returns {Weights}
   */
  function passagesOf(index, asked) {
    /** @type {Weights} */
    const found = new Map();
    asked.names.forEach((name, at) => {
      passagesNaming(index, name, asked.isLast && at === 0).forEach((weight, passage) => {
        found.set(passage, Math.max(found.get(passage) || 0, at === 0 ? weight : weight * NAME_WEIGHT));
      });
    });
    return found;
  }

  /**
   * Whether a name stands in the words from a place on.
   * @param {string[]} words @param {number} from @param {string[]} name
   */
  function standsAt(words, from, name) {
    return name.every((word, at) => words[from + at] === word);
  }

  /**
   * What is asked for, thing by thing: the longest names first.
   * @param {Index} index @param {string} text @returns {Asked[]}
   */
  function thingsIn(index, text) {
    const words = wordsOf(text);
    const isUnfinished = !/\s$/.test(text);
    /** @type {Asked[]} */
    const found = [];
    for (let at = 0; at < words.length; ) {
      const from = at;
      const known = index.names.filter((names) => names.some((name) => standsAt(words, from, name)));
      const own = known.flat().filter((name) => standsAt(words, from, name));
      const name = own.reduce((best, one) => (one.length > best.length ? one : best), [words[at]]);
      const others = known.filter((names) => names.some((one) => one.join(" ") === name.join(" "))).flat();
      at += name.length;
      found.push({ names: [name, ...others], isLast: isUnfinished && at >= words.length });
    }
    return found.filter((one, at) => found.findIndex((other) => other.names[0].join() === one.names[0].join()) === at);
  }

  /** How much of a title was asked for, 0 to 1. @param {string} title @param {string[]} asked */
  function shareOf(title, asked) {
    const named = wordsOf(title);
    return named.filter((word) => asked.includes(word)).length / (named.length || 1);
  }

  /**
   * The best passage of each page, best page first. What holds all that is asked for comes before what does not.
   * @param {Index} index @param {string} text @returns {Found[]}
   */
  function find(index, text) {
    const things = thingsIn(index, text);
    const words = things.flatMap((thing) => thing.names.flat());
    const typed = wordsOf(text).join(" ");
    /** @type {Map<number, {held: Set<number>, best: number, passage: number}>} */
    const pages = new Map();
    /** @type {Weights} */
    const scores = new Map();
    things.forEach((thing, at) => {
      passagesOf(index, thing).forEach((weight, passage) => {
        const score = (scores.get(passage) || 0) + weight;
        scores.set(passage, score);
        const number = Number(index.passages[passage][0]);
        const one = pages.get(number) || { held: new Set(), best: 0, passage };
        one.held.add(at);
        if (score > one.best) Object.assign(one, { best: score, passage });
        pages.set(number, one);
      });
    });
    return [...pages]
      .map(([number, one]) => {
        const [path, kind, title] = index.pages[number];
        const [, anchor, heading] = index.passages[one.passage];
        const worth = wordsOf(title).join(" ") === typed ? TYPED : one.best * (1 + shareOf(title, words));
        const score = worth + HELD * one.held.size;
        return { path, kind, title, anchor, heading, score };
      })
      .sort((a, b) => b.score - a.score || (a.path < b.path ? -1 : 1));
  }

  /**
   * Words of the book that look like those asked for, for a question that finds nothing.
   * @param {Index} index @param {string} text @returns {string[]}
   */
  function nearWords(index, text) {
    return wordsOf(text).flatMap((word) => {
      const start = word.slice(0, 3);
      return index.words.filter((one) => one.startsWith(start) && !NUMBER.test(one)).slice(0, 3);
    }).slice(0, 5);
  }

  seambook.search = { find: find, isSlip: isSlip, nearWords: nearWords, unpack: unpack, wordsOf: wordsOf };
})();
