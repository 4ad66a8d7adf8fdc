/**
 * Questions -> the pages of the book that answer them, and where on each, best first. It knows nothing of the page it
 * runs in, and loads nothing: `needed` says which shards of the index must be there before `find` is asked.
 *
 * What a page can be worth at most is reckoned for every page, by numbers that stand with each word; what it is worth,
 * and which of its parts is meant, only for those that may be among the best.
 */

/**
 * @typedef {{page: number, part: number, score: number, isBehind: boolean}} Found
 * @typedef {{origins: Origin[], worths: number[], parts: boolean[], pages: number[], count: number, most: Float64Array,
 *   held: Float64Array, inTitle: Float64Array}} Tally
 *   From where is known where things stand; of each thing what it is worth, and whether it may stand on more pages
 *   than is known; the pages that may be among the best, and how many there are on which any stands; of each page what
 *   the things on it can be worth at most by their places, what they are worth, and what those in its title are.
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
  const { WEIGHTS, firstOf, mostOf, placeOf, standOf } = seambook.postings;
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
  const FIRST_LOOK = 48;
  /** Pages among which to look for the best. */
  const ENOUGH = 2500;
  /** So many are enough where only the best are asked for: a book of many cars says much the same of each. */
  const MOST_LOOKED_AT = 200;
  /** Kept from question to question, as making them anew costs more than filling them. @type {Float64Array[]} */
  const sheets = [];
  /** For each part of the page looked at. @type {number[]} */
  const here = [0];
  /** @type {number[]} */
  const gains = [0];
  /** Of the pages that are not to be worked from so many are told, where only the best are asked for. */
  const MOST_BEHIND = 8;

  /**
   * Whether a thing may stand on more pages than is known.
   * @param {Reading} reading
   * @param {Thing} thing
   */
  function isPart(reading, thing) {
    return thing.names[0].words.flat().some(([word]) => !reading.get(word)?.isWhole);
  }

  /**
   * On how many pages a thing stands that is not known whole: at least on as many as the commonest of its words.
   * @param {Reading} reading
   * @param {Thing} thing
   */
  function pagesOfPart(reading, thing) {
    const words = thing.names[0].words.flat().map(([word]) => reading.get(word));
    return Math.max(...words.map((read) => (read ? read.posting.pages : 1)));
  }

  /**
   * Weigh things and reckon for each page what is known of it by that: first by what stands on the fewest pages. Once
   * there are enough pages, what stands on more tells them apart and adds none: none of those could be among the best.
   * @param {SearchIndex} index @param {Reading} reading @param {Thing[]} things @returns {Tally}
   */
  function tallied(index, reading, things) {
    const size = index.pages;
    const all = things.map((thing, nth) => /** @type {Origin[]} */ (originsOf(index, reading, thing, nth)));
    const seen = new Uint8Array(size);
    const counts = all.map((origins, nth) => (things[nth].isCommon ? size : counted(origins, seen, nth + 1)));
    const parts = things.map((thing) => thing.isCommon || isPart(reading, thing));
    const worths = things.map((thing, nth) => {
      const count = parts[nth] && !thing.isCommon ? Math.max(counts[nth], pagesOfPart(reading, thing)) : counts[nth];
      return count ? Math.log(1 + size / count) * (thing.isQuiet ? QUIET : 1) : 0;
    });
    /** @type {Tally} */
    const tally = {
      origins: all.flat(), worths: worths, parts: parts, pages: [], count: marked(seen),
      most: sheet(size, 0), held: sheet(size, 1), inTitle: sheet(size, 2),
    };
    const [most, first] = [sheet(size, 3), sheet(size, 4)];
    const order = things.map((_, nth) => nth).sort((a, b) => counts[a] - counts[b] || a - b);
    for (const nth of order) {
      const isEnough = things[nth].isCommon || tally.pages.length > ENOUGH;
      /** @type {number[]} */
      const pages = [];
      for (const origin of all[nth]) reckon(origin, most, first, isEnough ? tally.held : null, pages);
      for (const page of pages) {
        if (tally.held[page] === 0) tally.pages.push(page);
        tally.held[page] += worths[nth];
        tally.most[page] += worths[nth] * most[page];
        if (first[page] > 1) tally.inTitle[page] += worths[nth];
        most[page] = first[page] = 0;
      }
    }
    return tally;
  }

  /**
   * A number for each page, all 0; those of the last question are used again.
   * @param {number} size
   * @param {number} nth
   */
  function sheet(size, nth) {
    const known = sheets[nth];
    if (known && known.length === size) return known.fill(0);
    return (sheets[nth] = new Float64Array(size));
  }

  /** @param {Uint8Array} seen */
  function marked(seen) {
    return seen.reduce((sum, one) => (one > 0 ? sum + 1 : sum), 0);
  }

  /**
   * On how many pages a thing stands.
   * @param {Origin[]} origins
   * @param {Uint8Array} seen
   * @param {number} mark set for each
   */
  function counted(origins, seen, mark) {
    let count = 0;
    for (const { at } of origins) {
      for (let nth = 0; nth < at.length; nth += 1) {
        if (seen[at[nth]] !== mark) count += 1;
        seen[at[nth]] = mark;
      }
    }
    return count;
  }

  /**
   * Reckon how much the best place of a thing on each page weighs, and its place in the page's first part.
   * @param {Origin} origin @param {Float64Array} most @param {Float64Array} first
   * @param {Float64Array | null} held if given, only of pages for which it says something
   * @param {number[]} pages grows by those that had none
   */
  function reckon({ at, entries, posting, sure }, most, first, held, pages) {
    const title = sure * WEIGHTS["*"];
    for (let nth = 0; nth < at.length; nth += 1) {
      const page = at[nth];
      if (held && held[page] === 0) continue;
      const best = posting && entries ? sure * mostOf(posting, entries[nth]) : title;
      const own = posting && entries ? sure * firstOf(posting, entries[nth]) : title;
      if (most[page] === 0) pages.push(page);
      if (best > most[page]) most[page] = best;
      if (own > first[page]) first[page] = own;
    }
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
    const tally = tallied(index, reading, things);
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
      const unknown = Math.min(unsure, whole - tally.held[page]);
      return tally.most[page] * standing(index, question, page, unknown) * (1 + 1e-9);
    });
    const enough = most < pages.length ? MOST_LOOKED_AT : pages.length;
    for (let many = FIRST_LOOK + most; ; many *= 4) {
      const least = nthLargest(bounds, many);
      const found = looked(index, question, pages.filter((_, at) => bounds[at] >= least));
      const isAll = many >= Math.min(pages.length, enough);
      if (isAll || (found.length >= most && found[most - 1].score > least)) return found.slice(0, most);
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
    const behind = pages.filter((page) => index.behind.has(page));
    const before = behind.length ? pages.filter((page) => !index.behind.has(page)) : pages;
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
