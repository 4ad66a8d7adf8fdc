/**
 * Questions -> the pages of the book that answer them, and where on each, best first. It knows nothing of the page it
 * runs in, and loads nothing: `needed` says which shards of the index must be there before `find` is asked.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const { wordsOf } = seambook.words;
  const { entriesOf, priorOf, shardsOfWord } = seambook.shardsOfIndex;
  const { isCommonWord, thingsIn } = seambook.asked;

  /**
   * @typedef {{words: string[], pages: number, behind: Set<number>}} Index  See shards.js.
   * @typedef {{names: {sure: number, words: [number, number][][]}[], words: string[], isQuiet: boolean}} Thing  See asked.js.
   * @typedef {{page: number, part: number, score: number, isBehind: boolean}} Found
   * @typedef {Map<number, Map<number, number>>} Stands  For each page its parts in which a thing stands, with the weight.
   * @typedef {{length: number, common: number, words: Set<number>}} Title  How many words a title has, how many of them are
   *   common, and which were asked for.
   */

  /** By where in a part a word stands: heading, long heading, text, table. @type {Record<string, number>} */
  const WEIGHTS = { "*": 1.7, ":": 1.55, ".": 1, ",": 0.95 };
  const QUIET = 0.15;
  /** What a thing is worth to a part of a page when it stands in the page's title, and when elsewhere on the page. */
  const OF_TITLE = 0.788;
  const ELSEWHERE = 0.0373;
  /** How much faster than in step the worth of a page falls with what it lacks of the question. */
  const LACKING = 1.08;
  /** What it adds that a page is named as was asked: by how much of the question, and of the title. */
  const NAMED = 0.223;
  const TITLE_SHARE = 1.7;
  const TYPED = 1.54;
  const NUMBER = /^[0-9]/;

  /** The shards that a question needs. @param {Index} index @param {string} text @returns {string[]} */
  function needed(index, text) {
    const numbers = thingsIn(index, text).flatMap((/** @type {Thing} */ thing) =>
      thing.names.flatMap((name) => name.words.flatMap((words) => words.map(([word]) => word)))
    );
    return [...new Set(/** @type {string[]} */ (numbers.flatMap((/** @type {number} */ at) => shardsOfWord(index, at))))];
  }

  /** @param {Map<number, number>} parts @param {number} part @param {number} weight */
  function raise(parts, part, weight) {
    parts.set(part, Math.max(parts.get(part) || 0, weight));
  }

  /**
   * Where a word stands by any of its forms.
   * @param {Index} index @param {[number, number][]} meant @param {Map<number, Title>} titles are told too
   */
  function standsOfWord(index, meant, titles) {
    /** @type {Stands} */
    const found = new Map();
    for (const [word, sure] of meant) {
      for (const entry of entriesOf(index, word)) {
        const parts = found.get(entry.page) || new Map();
        found.set(entry.page, parts);
        for (const [part, mark] of entry.parts) raise(parts, part, sure * WEIGHTS[mark]);
        if (!entry.title || sure < 0.8) continue;
        const title = titles.get(entry.page) || { length: entry.title, common: entry.common, words: new Set() };
        title.words.add(word);
        titles.set(entry.page, title);
      }
    }
    return found;
  }

  /** The parts that hold every word of a name. @param {Stands[]} words @returns {Stands} */
  function holdingAll(words) {
    if (words.length === 1) return words[0];
    /** @type {Stands} */
    const found = new Map();
    words[0].forEach((parts, page) => {
      const others = words.slice(1).map((one) => one.get(page));
      parts.forEach((weight, part) => {
        const weights = [weight, ...others.map((one) => (one && one.get(part)) || 0)];
        if (Math.min(...weights) === 0) return;
        const known = found.get(page) || new Map();
        known.set(part, weights.reduce((a, b) => a + b) / weights.length);
        found.set(page, known);
      });
    });
    return found;
  }

  /** Where a thing stands by any of its names. @param {Index} index @param {Thing} thing @param {Map<number, Title>} titles */
  function standsOfThing(index, thing, titles) {
    /** @type {Stands} */
    const found = new Map();
    for (const name of thing.names) {
      holdingAll(name.words.map((meant) => standsOfWord(index, meant, titles))).forEach((parts, page) => {
        const known = found.get(page) || new Map();
        found.set(page, known);
        parts.forEach((weight, part) => raise(known, part, weight * name.sure));
      });
    }
    return found;
  }

  /**
   * The best part of a page and what it is worth.
   * @param {number} page @param {{worth: number, stands: Stands}[]} things
   */
  function bestPart(page, things) {
    /** @type {Map<number, number>} */
    const parts = new Map([[0, 0]]);
    let held = 0;
    let inTitle = 0;
    for (const { worth, stands } of things) {
      const here = stands.get(page);
      if (!here) continue;
      held += worth;
      if ((here.get(0) || 0) > 1) inTitle += worth;
      here.forEach((_, part) => parts.set(part, parts.get(part) || 0));
    }
    for (const { worth, stands } of things) {
      const here = stands.get(page);
      if (!here) continue;
      const best = Math.max(ELSEWHERE * Math.max(...here.values()), OF_TITLE * (here.get(0) || 0));
      parts.forEach((score, part) => parts.set(part, score + worth * Math.max(here.get(part) || 0, best)));
    }
    let [part, score] = [0, 0];
    parts.forEach((one, at) => {
      if (one > score) [part, score] = [at, one];
    });
    return { part: part, score: score, held: held, inTitle: inTitle };
  }

  /**
   * How many words typed are not looked up for standing on most pages: a title may hold them all the same.
   * @param {Index} index @param {Set<string>} typed @param {Thing[]} things
   */
  function leftOut(index, typed, things) {
    const asked = new Set(things.flatMap((thing) => thing.words));
    return [...typed].filter((word) => !asked.has(word) && isCommonWord(index, word)).length;
  }

  /**
   * The best place of each page, best page first: rare things count more, and all that is asked for more than some. What
   * is not to be worked from stands behind everything else, however well it answers.
   * @param {Index} index @param {string} text @returns {Found[]}
   */
  function find(index, text) {
    /** @type {Map<number, Title>} */
    const titles = new Map();
    const asked = /** @type {Thing[]} */ (thingsIn(index, text));
    const things = asked.map((thing) => {
      const stands = standsOfThing(index, thing, titles);
      return { worth: Math.log(1 + index.pages / stands.size) * (thing.isQuiet ? QUIET : 1), stands: stands };
    }).filter((thing) => thing.stands.size > 0);
    const whole = things.reduce((sum, thing) => sum + thing.worth, 0);
    const pages = new Set(things.flatMap((thing) => [...thing.stands.keys()]));
    const typed = /** @type {Set<string>} */ (new Set(wordsOf(text)));
    const unasked = leftOut(index, typed, asked);
    return [...pages]
      .map((page) => {
        const { part, score, held, inTitle } = bestPart(page, things);
        const title = titles.get(page);
        const share = title ? Math.min((title.words.size + Math.min(unasked, title.common)) / title.length, 1) : 0;
        const isTyped = title && share === 1 && typed.size === title.length;
        const named = inTitle / whole;
        const standing = 1 + NAMED * named * named + TITLE_SHARE * named * share;
        const worth = score * (held / whole) ** LACKING * standing * (isTyped ? TYPED : 1);
        return { page: page, part: part, score: worth * priorOf(index, page), isBehind: index.behind.has(page) };
      })
      .sort((a, b) => Number(a.isBehind) - Number(b.isBehind) || b.score - a.score || a.page - b.page);
  }

  /**
   * Words of the book that look like those asked for, for a question that finds nothing.
   * @param {Index} index @param {string} text @returns {string[]}
   */
  function nearWords(index, text) {
    return wordsOf(text).flatMap((/** @type {string} */ word) => {
      const start = word.slice(0, 3);
      return index.words.filter((one) => one.startsWith(start) && !NUMBER.test(one)).slice(0, 3);
    }).slice(0, 5);
  }

  seambook.search = { find: find, nearWords: nearWords, needed: needed };
})();
