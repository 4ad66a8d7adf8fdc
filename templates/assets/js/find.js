/**
 * Questions -> the pages of the book that answer them, and where on each, best first. It knows nothing of the page it
 * runs in, and loads nothing: `needed` says which shards of the index must be there before `find` is asked.
 *
 * What a page can be worth at most is reckoned for every page, by numbers that stand with each word; what it is worth,
 * and which of its parts is meant, only for those that may be among the best.
 */

/**
 * @typedef {{page: number, part: number, score: number, isBehind: boolean}} Found
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
  const { placesOf } = seambook.stands;
  const { marks, tallied } = seambook.tally;

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
  /** What a page can be worth is reckoned in another order than what it is worth, and rounded otherwise. */
  const SLACK = 1 + 1e-9;
  /** So many are enough where only the best are asked for: a book of many cars says much the same of each. */
  const MOST_LOOKED_AT = 224;
  /** And of those that can be worth as much as the last of these so many more. */
  const MOST_ALIKE = 600;
  /** For each part of the page looked at. @type {number[]} */
  const here = [0];
  /** @type {number[]} */
  const gains = [0];
  /** Of the pages that are not to be worked from so many are told, where only the best are asked for. */
  const MOST_BEHIND = 8;

  /** @param {SearchIndex} index @param {Reading} reading @param {Thing[]} things @returns {Titles} */
  function titlesOf(index, reading, things) {
    const size = index.pages;
    const found = { words: marks(size, 1), lengths: marks(size, 2), commons: marks(size, 3) };
    const meant = things.flatMap((thing) => thing.names.flatMap((name) => name.words.flat()));
    const sure = new Set(meant.filter((one) => one[1] >= SURE).map(([word]) => word));
    for (const word of sure) {
      const named = reading.get(word)?.posting.named;
      if (!named) continue;
      for (let at = 0; at < named.at.length; at += 1) {
        if (!named.lengths[at]) continue;
        found.words[named.at[at]] += 1;
        found.lengths[named.at[at]] = named.lengths[at];
        found.commons[named.at[at]] = named.commons[at];
      }
    }
    return found;
  }

  /**
   * The best part of a page and what it is worth; and what things are worth that it may hold though that is not known.
   * @param {number} page @param {Places} places @param {Tally} tally
   */
  function bestPart(page, { heads, nexts, origins, entries }, { worths, parts }) {
    let whole = 0;
    let unknown = worths.reduce((sum, worth, nth) => sum + (parts[nth] ? worth : 0), 0);
    gains.fill(0);
    for (let at = heads[page]; at >= 0; ) {
      const nth = origins[at].thing;
      let most = 0;
      here.fill(0);
      for (; at >= 0 && origins[at].thing === nth; at = nexts[at]) {
        const { posting, sure } = origins[at];
        const stand = posting ? /** @type {WordStand} */ (standOf(posting, entries[at])) : IN_TITLE;
        for (let own = 0; own < stand.parts.length; own += 1) {
          const weight = sure * stand.weights[own];
          while (here.length <= stand.parts[own]) gains[here.push(0) - 1] = 0;
          if (weight > here[stand.parts[own]]) here[stand.parts[own]] = weight;
          if (weight > most) most = weight;
        }
      }
      const best = Math.max(ELSEWHERE * most, OF_TITLE * here[0]);
      whole += worths[nth] * best;
      for (let part = 0; part < here.length; part += 1) {
        if (here[part] > best) gains[part] += worths[nth] * (here[part] - best);
      }
      if (parts[nth]) unknown -= worths[nth];
    }
    let [part, gain] = [0, 0];
    for (let at = 0; at < gains.length; at += 1) if (gains[at] > gain) [part, gain] = [at, gains[at]];
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

  /**
   * @param {SearchIndex} index
   * @param {string} text
   * @param {Reading} reading
   * @param {Thing[]} things
   * @returns {Question}
   */
  function questionOf(index, text, reading, things) {
    const typed = /** @type {Set<string>} */ (new Set(wordsOf(text)));
    const tally = /** @type {Tally} */ (tallied(index, reading, things));
    return {
      tally: tally, titles: titlesOf(index, reading, things),
      whole: tally.worths.reduce((sum, worth) => sum + worth, 0),
      typed: typed.size, unasked: leftOut(index, typed, things),
    };
  }

  /**
   * What a page gains and loses whatever its best part is: by how much of the question it holds, in the title and at
   * all.
   * @param {SearchIndex} index @param {Question} question @param {number} page @param {number} unknown worth of things
   * that
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

  /** The so-manieth largest of as many numbers at least. @param {Float64Array} values @param {number} nth */
  function nthLargest(values, nth) {
    /** @type {number[]} */
    const best = []; // rising
    for (let at = 0; at < values.length; at += 1) {
      const value = values[at];
      if (best.length === nth && value <= best[0]) continue;
      best.splice(placeOf(best, value), 0, value);
      if (best.length > nth) best.shift();
    }
    return best[0];
  }

  /**
   * Places among some numbers of those that are largest and of those that equal the last of them, the largest first, of
   * equal ones those of lower pages.
   * @param {Float64Array} bounds @param {number[]} pages @param {number} most
   */
  function largest(bounds, pages, most) {
    const isAll = most >= pages.length;
    const least = isAll ? -Infinity : nthLargest(bounds, most);
    /** @type {number[]} */
    const found = [];
    for (let at = 0; at < bounds.length; at += 1) if (bounds[at] >= least) found.push(at);
    found.sort((a, b) => bounds[b] - bounds[a] || pages[a] - pages[b]);
    return isAll ? found : found.slice(0, most + MOST_ALIKE);
  }

  /**
   * What each of some pages can be worth at most.
   * @param {SearchIndex} index @param {Question} question @param {number[]} pages
   */
  function boundsOf(index, question, pages) {
    const { tally, whole } = question;
    const unsure = tally.worths.reduce((sum, worth, nth) => sum + (tally.parts[nth] ? worth : 0), 0);
    const bounds = new Float64Array(pages.length);
    for (let at = 0; at < pages.length; at += 1) {
      const page = pages[at];
      const unknown = Math.min(unsure, whole - tally.held[page]);
      bounds[at] = tally.most[page] * standing(index, question, page, unknown) * SLACK;
    }
    return bounds;
  }

  /**
   * The best of some pages, best first. Those that can be worth most are looked at first, and no more of them once none
   * that is left can be among the best.
   * @param {SearchIndex} index @param {Question} question @param {number[]} pages @param {number} most
   */
  function bestOf(index, question, pages, most) {
    if (!pages.length) return [];
    const bounds = boundsOf(index, question, pages);
    const likely = largest(bounds, pages, most < pages.length ? MOST_LOOKED_AT : pages.length);
    const wanted = marks(index.pages, 4);
    for (const at of likely) wanted[pages[at]] = 1;
    const places = placesOf(question.tally.origins, wanted);
    /** @type {Found[]} */
    const found = [];
    /** @type {number[]} */
    const scores = []; // rising, of the best so far
    for (const at of likely) {
      if (scores.length === most && scores[0] > bounds[at]) break;
      const one = looked(index, question, pages[at], places);
      found.push(one);
      scores.splice(placeOf(scores, one.score), 0, one.score);
      if (scores.length > most) scores.shift();
    }
    return found.sort((a, b) => b.score - a.score || a.page - b.page).slice(0, most);
  }

  /**
   * @param {SearchIndex} index @param {Question} question @param {number} page @param {Places} places
   * @returns {Found}
   */
  function looked(index, question, page, places) {
    const { part, score, unknown } = bestPart(page, places, question.tally);
    const worth = score * standing(index, question, page, unknown);
    return { page: page, part: part, score: worth, isBehind: index.behind[page] === 1 };
  }

  /**
   * The best place of each page, best page first: rare things count more, and all that is asked for more than some.
   * What is not to be worked from stands behind everything else, however well it answers.
   * @param {SearchIndex} index @param {string} text @param {number} [most] so many, if not all
   * @returns {{found: Found[], count: number}} `count` is how many there are
   */
  function find(index, text, most) {
    const things = /** @type {Thing[]} */ (thingsIn(index, text));
    const reading = /** @type {Reading} */ (readingOf(index, things));
    const question = questionOf(index, text, reading, things);
    const { pages } = question.tally;
    const behind = pages.filter((page) => index.behind[page] === 1);
    const before = behind.length ? pages.filter((page) => index.behind[page] === 0) : pages;
    return {
      found: [
        ...bestOf(index, question, before, most || before.length),
        ...bestOf(index, question, behind, most ? MOST_BEHIND : behind.length),
      ],
      count: question.tally.count,
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
