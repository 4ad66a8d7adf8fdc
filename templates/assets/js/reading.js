/**
 * The things asked for -> which shards of the index they need, and what those say: the postings of all words meant,
 * long ones whole as far as there is room. So no question loads more than so much, however large the book.
 */

/**
 * @typedef {Map<string, {posting: Posting, isWhole: boolean}>} Reading
 *   Of words meant where they stand; of one that is not read whole only what it names.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const { thingsIn } = seambook.asked;
  const { isThere, postingOf, shardOfWord, sizeOf, wholeOf } = seambook.shardsOfIndex;

  /** Bytes of postings that one question reads, and those that begin lines of words may take of it. */
  const MOST = 108000;
  const MOST_OF_LINES = 92000;
  /** Of a shard that is not there yet, by far the commonest size; of one of a long posting, the greatest. */
  const LIKELY = 7000;
  const GREATEST = 12000;

  /**
   * The words meant, each once, the surest first, and how sure each is.
   * @param {Thing[]} things
   * @returns {[string, number][]}
   */
  function wordsMeant(things) {
    /** @type {Map<string, number>} */
    const found = new Map();
    for (const { names, isQuiet } of things) {
      for (const name of names) {
        for (const [word, sure] of name.words.flat()) {
          found.set(word, Math.max(found.get(word) || 0, sure * name.sure * (isQuiet ? 0.5 : 1)));
        }
      }
    }
    return [...found].sort((a, b) => b[1] - a[1]);
  }

  /**
   * Where the words meant stand, as far as is read of it; what is not there is wanted.
   * @param {SearchIndex} index @param {Thing[]} things @returns {Reading}
   */
  function readingOf(index, things) {
    /** @type {Reading} */
    const found = new Map();
    const meant = wordsMeant(things);
    const shards = new Set();
    let size = 0;
    for (const [word] of meant) {
      const shard = shardOfWord(index, word);
      if (!shards.has(shard) && size > MOST_OF_LINES) continue;
      if (!shards.has(shard)) size += sizeOf(index, shard) || LIKELY;
      shards.add(shard);
      const posting = postingOf(index, word);
      if (posting) found.set(word, { posting: posting, isWhole: posting.rests.length === 0 });
    }
    const telling = things.filter((thing) => !thing.isCommon);
    if (isThere(index)) complete(index, found, wordsMeant(telling), MOST - size);
    return found;
  }

  /**
   * Read long postings whole: those of the surest words first, and of these the shortest.
   * @param {SearchIndex} index @param {Reading} reading @param {[string, number][]} meant @param {number} room
   */
  function complete(index, reading, meant, room) {
    const long = meant.flatMap(([word, sure]) => {
      const read = reading.get(word);
      return read && !read.isWhole ? [{ word: word, sure: sure, size: read.posting.rests.length * GREATEST }] : [];
    }).sort((a, b) => b.sure - a.sure || a.size - b.size);
    for (const { word, size } of long) {
      if (size > room) continue;
      room -= size;
      const whole = wholeOf(index, word);
      if (whole) reading.set(word, { posting: whole, isWhole: true });
    }
  }

  /**
   * The shards that a question needs and that are not there. When they are, it may turn out that it needs others: it is
   * to be asked again until there are none.
   * @param {SearchIndex} index @param {string} text @returns {string[]}
   */
  function needed(index, text) {
    index.wanted.clear();
    const things = thingsIn(index, text);
    if (isThere(index)) readingOf(index, things);
    return [...index.wanted];
  }

  seambook.reading = { needed: needed, readingOf: readingOf };
})();
