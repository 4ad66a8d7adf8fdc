/**
 * A word's line of the search index -> where the word stands. Its form is told in builder/search/postings.py and
 * packing.py.
 *
 * A common word stands on ten thousand pages, and a question has several such words: an entry is read as far as every
 * page needs it, how much its best place and its place in the first part weigh, and its parts when one page is looked
 * at.
 */

/**
 * @typedef {{parts: number[], weights: number[]}} WordStand  In which parts of a page a word stands and what that is
 * worth.
 * @typedef {{at: number[], lengths: number[], commons: number[]}} Named
 *   The pages it names, rising: of each how many words the title has and how many of them are common; no length where
 *   it is in another name.
 * @typedef {{
 *   pages: number, rests: string[], named: Named, at: number[], entries: number[], marks: string[], bases: number[],
 *   most: number[], first: number[], stands: (WordStand | undefined)[]
 * }} Posting
 *   On how many pages a word stands; the shards of what does not lie beside others; what it names; the pages of which
 *   is known in which parts it stands, rising, and the entry that says so; and of each entry its marks, the entry it
 *   adds to or -1, and once they were asked for what its best part weighs and its first, and its parts.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  const RUN = /([.,*:])([0-9a-z]+)(?:-([0-9a-z]+))?/g;
  /** By where in a part a word stands: heading or name, long heading, text, table. @type {Record<string, number>} */
  const WEIGHTS = { "*": 1.7, ":": 1.55, ".": 1, ",": 0.95 };
  const OF_FIRST = /[.,*:]0(?![0-9a-z])/;
  const [NINE, LETTER, TEN] = ["9".charCodeAt(0), "a".charCodeAt(0), 10];

  /** @param {string} digits */
  function number(digits) {
    return parseInt(digits, 36);
  }

  /**
   * Read entries one by one: the distance from the last page, what stands behind it, and how many pages it is of.
   * @param {string} text @param {(gap: number, said: string, count: number, isRun: boolean) => void} visit
   */
  function each(text, visit) {
    for (let at = 0; at < text.length; ) {
      let end = text.indexOf(" ", at);
      if (end < 0) end = text.length;
      let gap = 0;
      for (; at < end; at += 1) {
        const code = text.charCodeAt(at);
        const isDigit = code >= 48 && code <= NINE;
        if (!isDigit && (code < LETTER || code > 122)) break;
        gap = gap * 36 + (isDigit ? code - 48 : code - LETTER + TEN);
      }
      const isRun = text[at] === "^";
      if (!isRun) visit(gap, text.slice(at, end), 1, false);
      else visit(gap, "", at + 1 < end ? number(text.slice(at + 1, end)) : 1, true);
      at = end + 1;
    }
  }

  /** What the best of some marks weighs. @param {string} marks */
  function bestOf(marks) {
    for (const mark in WEIGHTS) if (marks.includes(mark)) return WEIGHTS[mark];
    return 0;
  }

  /** @param {Posting} posting @param {string} marks @param {number} base an entry, or -1 */
  function addEntry(posting, marks, base) {
    posting.marks.push(marks || ".0");
    posting.bases.push(base);
    return posting.marks.length - 1;
  }

  /**
   * What the best part of an entry weighs, at most.
   * @param {Posting} posting
   * @param {number} entry
   * @returns {number}
   */
  function mostOf(posting, entry) {
    const known = posting.most[entry];
    if (known !== undefined) return known;
    const base = posting.bases[entry];
    return (posting.most[entry] = Math.max(bestOf(posting.marks[entry]), base < 0 ? 0 : mostOf(posting, base)));
  }

  /** What the first part of an entry weighs, or 0. @param {Posting} posting @param {number} entry @returns {number} */
  function firstOf(posting, entry) {
    const known = posting.first[entry];
    if (known !== undefined) return known;
    const found = OF_FIRST.exec(posting.marks[entry]);
    const base = posting.bases[entry];
    return (posting.first[entry] = found ? WEIGHTS[found[0][0]] : base < 0 ? 0 : firstOf(posting, base));
  }

  /** @param {string} text @param {Posting} posting grows by it */
  function readParts(text, posting) {
    let base = -1;
    let last = 0;
    each(text, (gap, said, count, isRun) => {
      let entry = base;
      if (said.startsWith("=")) entry = addEntry(posting, said.slice(1), base);
      else if (!isRun) entry = base = addEntry(posting, said, -1);
      last += gap;
      for (let nth = 0; nth < count; nth += 1) {
        posting.at.push(last + nth);
        posting.entries.push(entry);
      }
      last += count - 1;
    });
  }

  /** @param {string} text @returns {Named} */
  function readNamed(text) {
    /** @type {Named} */
    const found = { at: [], lengths: [], commons: [] };
    let [last, length, common] = [0, 0, 0];
    each(text, (gap, said, count, isRun) => {
      if (!isRun) {
        const [many, some] = said.slice(1).split("~");
        length = said.startsWith("!") ? number(many) : 0;
        common = some ? number(some) : 0;
      }
      last += gap;
      for (let nth = 0; nth < count; nth += 1) {
        found.at.push(last + nth);
        found.lengths.push(length);
        found.commons.push(common);
      }
      last += count - 1;
    });
    return found;
  }

  /**
   * @param {string} text of what it names, a semicolon and its parts, or its parts alone
   * @param {Named} [named] if known
   */
  function read(text, named) {
    const [parts, names] = text.split(";").reverse();
    /** @type {Posting} */
    const found = {
      pages: 0, rests: [], named: named || readNamed(names || ""), at: [], entries: [], marks: [], bases: [], most: [],
      first: [], stands: [],
    };
    if (!parts.startsWith(">")) readParts(parts, found);
    return found;
  }

  /** @param {string} line @param {string} word @returns {Posting} */
  function readLine(line, word) {
    const found = read(line);
    const [, pages, count] = />([0-9a-z]+) ([0-9a-z]+)$/.exec(line) || ["", "", "0"];
    for (let at = 0; at < number(count); at += 1) found.rests.push(`rest-${word}-${at}`);
    found.pages = pages ? number(pages) : found.at.length + found.named.at.filter((one) => !standOn(found, one)).length;
    return found;
  }

  /**
   * With what a long posting has in shards of its own.
   * @param {Posting} posting
   * @param {string} rest
   * @returns {Posting}
   */
  function completed(posting, rest) {
    return { ...read(rest, rest.includes(";") ? undefined : posting.named), pages: posting.pages };
  }

  /** Whether it names a page. @param {Posting} posting @param {number} page */
  function isNamed({ named }, page) {
    return named.at[placeOf(named.at, page)] === page;
  }

  /** @param {string} marks @param {Map<number, number>} found grows by what they say */
  function readMarks(marks, found) {
    for (const [, mark, first, last] of marks.matchAll(RUN)) {
      for (let at = number(first); at <= number(last || first); at += 1) found.set(at, WEIGHTS[mark]);
    }
  }

  /** In which parts of a page a word is known to stand. @param {Posting} posting @param {number} page */
  function standOn(posting, page) {
    const at = placeOf(posting.at, page);
    return posting.at[at] === page ? standOf(posting, posting.entries[at]) : null;
  }

  /** What an entry says. @param {Posting} posting @param {number} entry @returns {WordStand} */
  function standOf(posting, entry) {
    const known = posting.stands[entry];
    if (known) return known;
    /** @type {Map<number, number>} */
    const weights = new Map();
    if (posting.bases[entry] >= 0) readMarks(posting.marks[posting.bases[entry]], weights);
    readMarks(posting.marks[entry], weights);
    const found = { parts: [...weights.keys()], weights: [...weights.values()] };
    posting.stands[entry] = found;
    return found;
  }

  /**
   * The first place in a sorted list that is not before the value.
   * @template {string | number} T @param {T[]} list @param {T} value
   */
  function placeOf(list, value) {
    let low = 0;
    let high = list.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (list[middle] < value) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  seambook.postings = {
    WEIGHTS: WEIGHTS, completed: completed, firstOf: firstOf, isNamed: isNamed, mostOf: mostOf, placeOf: placeOf,
    readLine: readLine, standOf: standOf, standOn: standOn,
  };
})();
