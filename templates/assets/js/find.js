/**
 * Questions -> the pages of the book that answer them, and where on each, best first. It knows nothing of the page it
 * runs in, and loads nothing: `needed` says which shards of the index must be there before `find` is asked.
 *
 * What a page can be worth at most is reckoned for every page, by numbers that stand with each word; what it is worth, and
 * which of its parts is meant, only for those that may be among the best.
 */

/**
 * @typedef {{page: number, part: number, score: number, isBehind: boolean}} Found
 * @typedef {{
 *   origins: Origin[], worths: number[], parts: boolean[], pages: number[], most: Float64Array, held: Float64Array,
 *   inTitle: Float64Array
 * }} Tally
 *   From where is known where things stand; of each thing what it is worth, and whether it may stand on more pages than is
 *   known; the pages on which any stands, and of each page what the things on it can be worth at most by their places, what
 *   they are worth, and what those in its title are.
 * @typedef {{words: Uint8Array, lengths: Uint8Array, commons: Uint8Array}} Titles
 *   Of each page's title how many words were asked for, how many it has if any were, and how many of them are common.
 * @typedef {{tally: Tally, titles: Titles, whole: number, typed: number, unasked: number}} Question
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const { wordsOf } = seambook.words;
  const { WEIGHTS, placeOf, standOf } = seambook.postings;
  const { begunWith } = seambook.shardsOfIndex;
  const { isCommonWord, thingsIn } = seambook.asked;
  const { needed, readingOf } = seambook.reading;
  const { originsOf, placesOf } = seambook.stands;

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
  const IN_TITLE = { parts: [0], weights: [WEIGHTS["*"]] };
  const NUMBER = /^[0-9]/;
  /** How sure a word must be the one meant to count as one of a title. */
  const SURE = 0.8;
  /** So many of the pages that can be worth most are looked at first. */
  const FIRST_LOOK = 64;
  /** So many are enough where only the best are asked for: a book of many cars says much the same of each. */
  const MOST_LOOKED_AT = 500;
  /** Of the pages that are not to be worked from so many are told, where only the best are asked for. */
  const MOST_BEHIND = 8;

  /** On how many pages a thing stands that is not known whole: at least on as many as the commonest of its words.
   * @param {Reading} reading @param {Thing} thing */
  function pagesOfPart(reading, thing) {
    const words = thing.names[0].words.flat().map(([word]) => reading.get(word));
    return Math.max(...words.map((read) => (read ? read.posting.pages : 1)));
  }

  /**
   * Weigh things and reckon for each page what is known of it by that.
   * @param {SearchIndex} index @param {Reading} reading @param {Thing[]} things @returns {Tally}
   */
  function tallied(index, reading, things) {
    const size = index.pages;
    /** @type {Tally} */
    const tally = {
      origins: [], worths: [], parts: [], pages: [],
      most: new Float64Array(size), held: new Float64Array(size), inTitle: new Float64Array(size),
    };
    const [most, first] = [new Float64Array(size), new Float64Array(size)];
    things.forEach((thing, nth) => {
      const origins = /** @type {Origin[]} */ (originsOf(index, reading, thing, nth));
      const pages = origins.flatMap((origin) => reckoned(origin, most, first));
      const isPart = thing.names[0].words.flat().some(([word]) => !reading.get(word)?.isWhole);
      const count = isPart ? Math.max(pages.length, pagesOfPart(reading, thing)) : pages.length;
      const worth = count ? Math.log(1 + size / count) * (thing.isQuiet ? QUIET : 1) : 0;
      tally.origins.push(...origins);
      tally.worths.push(worth);
      tally.parts.push(isPart);
      for (const page of pages) {
        if (tally.held[page] === 0) tally.pages.push(page);
        tally.held[page] += worth;
        tally.most[page] += worth * most[page];
        if (first[page] > 1) tally.inTitle[page] += worth;
        most[page] = first[page] = 0;
      }
    });
    return tally;
  }

  /**
   * Reckon how much the best place of a thing on each page weighs, and its place in the page's first part.
   * @param {Origin} origin @param {Float64Array} most @param {Float64Array} first @returns {number[]} pages that had none
   */
  function reckoned({ at, entries, posting, sure }, most, first) {
    /** @type {number[]} */
    const pages = [];
    const title = sure * WEIGHTS["*"];
    for (let nth = 0; nth < at.length; nth += 1) {
      const page = at[nth];
      const best = posting && entries ? sure * posting.most[entries[nth]] : title;
      const own = posting && entries ? sure * posting.first[entries[nth]] : title;
      if (most[page] === 0) pages.push(page);
      if (best > most[page]) most[page] = best;
      if (own > first[page]) first[page] = own;
    }
    return pages;
  }

  /** @param {SearchIndex} index @param {Reading} reading @param {Thing[]} things @returns {Titles} */
  function titlesOf(index, reading, things) {
    const size = index.pages;
    const found = { words: new Uint8Array(size), lengths: new Uint8Array(size), commons: new Uint8Array(size) };
    const meant = things.flatMap((thing) => thing.names.flatMap((name) => name.words.flat()));
    const sure = new Set(meant.filter((one) => one[1] >= SURE).map(([word]) => word));
    for (const word of sure) {
      const named = reading.get(word)?.posting.named;
      if (!named) continue;
      named.at.forEach((page, at) => {
        if (!named.lengths[at]) return;
        found.words[page] += 1;
        found.lengths[page] = named.lengths[at];
        found.commons[page] = named.commons[at];
      });
    }
    return found;
  }

  /**
   * The best part of a page and what it is worth; and what things are worth that it may hold though that is not known.
   * @param {number} page @param {Places} places @param {Tally} tally
   */
  function bestPart(page, { heads, nexts, origins, entries }, { worths, parts }) {
    /** @type {number[]} */
    const gains = [0];
    let whole = 0;
    let unknown = worths.reduce((sum, worth, nth) => sum + (parts[nth] ? worth : 0), 0);
    for (let at = heads[page]; at >= 0; ) {
      const nth = origins[at].thing;
      /** @type {number[]} */
      const here = [0];
      let most = 0;
      for (; at >= 0 && origins[at].thing === nth; at = nexts[at]) {
        const { posting, sure } = origins[at];
        const stand = posting ? /** @type {WordStand} */ (standOf(posting, entries[at])) : IN_TITLE;
        for (let own = 0; own < stand.parts.length; own += 1) {
          const weight = sure * stand.weights[own];
          if (weight > (here[stand.parts[own]] || 0)) here[stand.parts[own]] = weight;
          if (weight > most) most = weight;
        }
      }
      const best = Math.max(ELSEWHERE * most, OF_TITLE * here[0]);
      whole += worths[nth] * best;
      here.forEach((weight, part) => {
        if (weight > best) gains[part] = (gains[part] || 0) + worths[nth] * (weight - best);
      });
      if (parts[nth]) unknown -= worths[nth];
    }
    let [part, gain] = [0, 0];
    gains.forEach((one, at) => {
      if (one > gain) [part, gain] = [at, one];
    });
    return { part: part, score: whole + gain, unknown: unknown };
  }

  /**
   * How many words typed are not looked up for standing on most pages: a title may hold them all the same.
   * @param {SearchIndex} index @param {Set<string>} typed @param {Thing[]} things
   */
  function leftOut(index, typed, things) {
    const asked = new Set(things.flatMap((thing) => thing.words));
    return [...typed].filter((word) => !asked.has(word) && isCommonWord(index, word)).length;
  }

  /** @param {SearchIndex} index @param {string} text @param {Reading} reading @param {Thing[]} things @returns {Question} */
  function questionOf(index, text, reading, things) {
    const typed = /** @type {Set<string>} */ (new Set(wordsOf(text)));
    const tally = tallied(index, reading, things);
    return {
      tally: tally, titles: titlesOf(index, reading, things), whole: tally.worths.reduce((sum, worth) => sum + worth, 0),
      typed: typed.size, unasked: leftOut(index, typed, things),
    };
  }

  /**
   * What a page gains and loses whatever its best part is: by how much of the question it holds, in the title and at all.
   * @param {SearchIndex} index @param {Question} question @param {number} page @param {number} unknown worth of things that
   *   it may hold though that is not known
   */
  function standing(index, { tally, titles, whole, typed, unasked }, page, unknown) {
    const length = titles.lengths[page];
    const share = length ? Math.min((titles.words[page] + Math.min(unasked, titles.commons[page])) / length, 1) : 0;
    const isTyped = share === 1 && typed === length;
    const named = tally.inTitle[page] / whole;
    const gained = 1 + NAMED * named * named + TITLE_SHARE * named * share;
    return ((tally.held[page] + unknown) / whole) ** LACKING * gained * (isTyped ? TYPED : 1) * index.priors[page];
  }

  /** The so-manieth largest of some numbers. @param {number[]} values @param {number} nth */
  function nthLargest(values, nth) {
    if (nth >= values.length) return -Infinity;
    /** @type {number[]} */
    const best = []; // rising
    for (const value of values) {
      if (best.length === nth && value <= best[0]) continue;
      best.splice(placeOf(best, value), 0, value);
      if (best.length > nth) best.shift();
    }
    return best[0];
  }

  /**
   * The best of some pages, best first: by what each can be worth at most only as many are looked at as must be.
   * @param {SearchIndex} index @param {Question} question @param {number[]} pages @param {number} most
   */
  function bestOf(index, question, pages, most) {
    const { tally, whole } = question;
    const unsure = tally.worths.reduce((sum, worth, nth) => sum + (tally.parts[nth] ? worth : 0), 0);
    const bounds = pages.map((page) => {
      return tally.most[page] * standing(index, question, page, Math.min(unsure, whole - tally.held[page])) * (1 + 1e-9);
    });
    const enough = most < pages.length ? MOST_LOOKED_AT : pages.length;
    for (let many = FIRST_LOOK + most; ; many *= 8) {
      const least = nthLargest(bounds, many);
      const found = looked(index, question, pages.filter((_, at) => bounds[at] >= least));
      const isEnough = many >= Math.min(pages.length, enough) || (found.length >= most && found[most - 1].score > least);
      if (isEnough) return found.slice(0, most);
    }
  }

  /** @param {SearchIndex} index @param {Question} question @param {number[]} pages @returns {Found[]} best first */
  function looked(index, question, pages) {
    const marked = new Uint8Array(index.pages);
    for (const page of pages) marked[page] = 1;
    const places = placesOf(question.tally.origins, marked);
    const found = pages.map((page) => {
      const { part, score, unknown } = bestPart(page, places, question.tally);
      const worth = score * standing(index, question, page, unknown);
      return { page: page, part: part, score: worth, isBehind: index.behind.has(page) };
    });
    return found.sort((a, b) => b.score - a.score || a.page - b.page);
  }

  /**
   * The best place of each page, best page first: rare things count more, and all that is asked for more than some. What
   * is not to be worked from stands behind everything else, however well it answers.
   * @param {SearchIndex} index @param {string} text @param {number} [most] so many, if not all
   * @returns {{found: Found[], count: number}} `count` is how many there are
   */
  function find(index, text, most) {
    const things = /** @type {Thing[]} */ (thingsIn(index, text));
    const reading = /** @type {Reading} */ (readingOf(index, things));
    const question = questionOf(index, text, reading, things);
    const { pages } = question.tally;
    const before = pages.filter((page) => !index.behind.has(page));
    const behind = pages.filter((page) => index.behind.has(page));
    return {
      found: [
        ...bestOf(index, question, before, most || before.length),
        ...bestOf(index, question, behind, most ? MOST_BEHIND : behind.length),
      ],
      count: pages.length,
    };
  }

  /**
   * Words of the book that look like those asked for, for a question that finds nothing.
   * @param {SearchIndex} index @param {string} text @returns {string[]}
   */
  function nearWords(index, text) {
    return wordsOf(text).flatMap((/** @type {string} */ word) => {
      const near = [...begunWith(index, word.slice(0, 3))];
      return near.filter((one) => !NUMBER.test(one)).slice(0, 3);
    }).slice(0, 5);
  }

  seambook.search = { find: find, nearWords: nearWords, needed: needed };
})();
