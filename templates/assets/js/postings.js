/**
 * A word's line of the search index -> where the word stands. Its form is told in builder/search/postings.py and
 * packing.py.
 *
 * A common word stands on ten thousand pages, and a question has several such words: an entry is read as far as every
 * page needs it, how much its best place and its place in the first part weigh; its parts when one page is looked at.
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
 *   adds to or -1, what its best part weighs and its first, and once they were asked for its parts.
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
  const WEIGHT_OF = new Float64Array(128);
  for (const [mark, weight] of Object.entries(WEIGHTS)) WEIGHT_OF[mark.charCodeAt(0)] = weight;
  const [ZERO, NINE, LETTER, LAST_LETTER, RUNS] = [..."09az^"].map((one) => one.charCodeAt(0));
  const TEN = 10;
  /** The entry read last. */
  const entry = { gap: 0, said: "", count: 1, isRun: false };

  /** @param {string} digits */
  function number(digits) {
    return parseInt(digits, 36);
  }

  /** A number in base 36 that is read as it goes on. @param {number} sum @param {number} code of its next digit */
  function grown(sum, code) {
    return sum * 36 + (code <= NINE ? code - ZERO : code - LETTER + TEN);
  }

  /** Whether a number goes on. @param {number} code */
  function isDigit(code) {
    return code >= LETTER ? code <= LAST_LETTER : code >= ZERO && code <= NINE;
  }

  /**
   * Read entries one by one into `entry`: the distance from the last page, what stands behind it, and how many pages it
   * is of. A question reads tens of thousands, so nothing is made for one but what it says.
   * @param {string} text @param {number} from
   * @returns {number} where the next one begins
   */
  function readEntry(text, from) {
    let [at, gap, count] = [from, 0, 0];
    let code = text.charCodeAt(at);
    for (; isDigit(code); code = text.charCodeAt((at += 1))) gap = grown(gap, code);
    entry.gap = gap;
    entry.isRun = code === RUNS;
    if (!entry.isRun) {
      const end = text.indexOf(" ", at);
      entry.count = 1;
      entry.said = end < 0 ? text.slice(at) : text.slice(at, end);
      return end < 0 ? text.length : end + 1;
    }
    code = text.charCodeAt((at += 1));
    for (; isDigit(code); code = text.charCodeAt((at += 1))) count = grown(count, code);
    entry.count = count || 1;
    return at + 1;
  }

  /**
   * Add an entry with what its best part weighs, and its first or 0: a question asks that of every page.
   * @param {Posting} posting @param {string} said where a word stands; nothing says in the first part
   * @param {number} base an entry that it adds to, or -1
   */
  function addEntry(posting, said, base) {
    const marks = said || ".0";
    let most = base < 0 ? 0 : posting.most[base];
    let first = 0;
    for (let at = 0; at < marks.length; at += 1) {
      const weight = WEIGHT_OF[marks.charCodeAt(at)];
      if (weight > most) most = weight;
      if (weight > 0 && first === 0 && marks.charCodeAt(at + 1) === ZERO && !isDigit(marks.charCodeAt(at + 2))) {
        first = weight;
      }
    }
    posting.marks.push(marks);
    posting.bases.push(base);
    posting.most.push(most);
    return posting.first.push(first || (base < 0 ? 0 : posting.first[base])) - 1;
  }

  /** @param {string} text @param {Posting} posting grows by it */
  function readParts(text, posting) {
    let [base, last] = [-1, 0];
    for (let at = 0; at < text.length; ) {
      at = readEntry(text, at);
      let own = base;
      if (!entry.isRun && entry.said[0] === "=") own = addEntry(posting, entry.said.slice(1), base);
      else if (!entry.isRun) own = base = addEntry(posting, entry.said, -1);
      last += entry.gap;
      for (let nth = 0; nth < entry.count; nth += 1) {
        posting.at.push(last + nth);
        posting.entries.push(own);
      }
      last += entry.count - 1;
    }
  }

  /** @param {string} text @returns {Named} */
  function readNamed(text) {
    /** @type {Named} */
    const found = { at: [], lengths: [], commons: [] };
    let [last, length, common] = [0, 0, 0];
    for (let at = 0; at < text.length; ) {
      at = readEntry(text, at);
      if (!entry.isRun) {
        const [many, some] = entry.said.slice(1).split("~");
        length = entry.said[0] === "!" ? number(many) : 0;
        common = some ? number(some) : 0;
      }
      last += entry.gap;
      for (let nth = 0; nth < entry.count; nth += 1) {
        found.at.push(last + nth);
        found.lengths.push(length);
        found.commons.push(common);
      }
      last += entry.count - 1;
    }
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
    WEIGHTS: WEIGHTS, completed: completed, isNamed: isNamed, placeOf: placeOf, readLine: readLine, standOf: standOf,
    standOn: standOn,
  };
})();
