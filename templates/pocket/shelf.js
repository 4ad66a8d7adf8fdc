/**
 * What the copy holds: files of the book by path, packed in groups that are unpacked when one of them is asked for.
 * The first group comes with the list of all; the others lie further down in the file and may not be read yet.
 */
(function () {
  "use strict";

  /** @typedef {{path: string, group: number, from: number, to: number}} Place */

  /** @type {any} */
  const pocket = (/** @type {any} */ (window).seambookPocket = /** @type {any} */ (window).seambookPocket || {});
  /** @type {Map<string, Place>} */
  const places = new Map();
  /** @type {number[]} */
  const sizes = [];
  /** @type {string[]} */
  let lines = [];
  /** @type {Map<number, Uint8Array>} */
  const open = new Map();
  /** @type {Map<string, string>} */
  const addresses = new Map();
  /** Of each letter of a packed block its value: they are those of builder/pocket/armour.py. */
  const VALUES = new Uint8Array(256);
  for (let code = 0x21, value = 0; code < 0x100; code += code === 0x7e ? 0x23 : 1) {
    if (!"<>&\"'`\u00ad".includes(String.fromCharCode(code))) VALUES[code] = value++;
  }
  const QUOTED = new Map([['"', '\\"'], ["\n", "\\n"], ["\u0002", '"'], ["\u0003", "\n"]]);
  const TYPES = { png: "image/png", jpg: "image/jpeg", webp: "image/webp", svg: "image/svg+xml", js: "text/javascript" };

  /** What fifteen bits are that stand as two letters. @param {string} text @returns {Uint8Array} */
  function disarmed(text) {
    const bytes = new Uint8Array(Math.floor((text.length * 15) / 16));
    let held = 0, bits = 0, at = 0;
    for (let from = 0; from + 1 < text.length; from += 2) {
      held = (held << 15) | (VALUES[text.charCodeAt(from)] * 182 + VALUES[text.charCodeAt(from + 1)]);
      bits += 15;
      while (bits >= 8) {
        bits -= 8;
        bytes[at++] = held >>> bits;
      }
      held &= (1 << bits) - 1;
    }
    return bytes;
  }

  /** @param {string} text letters @param {number} size how many bytes come of it @returns {Uint8Array} */
  function unpacked(text, size) {
    return pocket.unpack(disarmed(text), size);
  }

  /** @param {string} id @param {number} size @returns {Uint8Array} */
  function taken(id, size) {
    const block = document.getElementById(id);
    if (!block) throw new RangeError("this copy of the book is damaged: it breaks off; ask for it again");
    const text = (block.textContent || "").trim();
    block.remove(); // what is unpacked need not be kept twice
    return unpacked(text, size);
  }

  /** Read the list of all that is held: of each group the files in their order, with their sizes. */
  function ready() {
    const block = document.getElementById("pocket_list");
    const bytes = taken("pocket_list", Number(block && block.dataset.size));
    const list = JSON.parse(new TextDecoder().decode(bytes));
    lines = list.lines;
    list.groups.forEach((/** @type {[string, number][]} */ files, /** @type {number} */ group) => {
      let from = 0;
      for (const [path, size] of files) {
        places.set(path, { path, group, from, to: from + size });
        from += size;
      }
      sizes.push(from);
    });
  }

  /**
   * Wait until a block was read to its end: something follows it, or the file is over. Told at once and not by looking now
   * and then, as else the rest of the file would be read before the page is shown.
   * @param {string} id @returns {Promise<void>}
   */
  function arrived(id) {
    const isThere = () => document.readyState !== "loading" || Boolean(document.getElementById(id)?.nextElementSibling);
    if (isThere()) return Promise.resolve();
    return new Promise((done) => {
      const look = () => {
        if (!isThere()) return;
        watch.disconnect();
        document.removeEventListener("readystatechange", look);
        done();
      };
      const watch = new MutationObserver(look);
      watch.observe(document.body, { childList: true });
      document.addEventListener("readystatechange", look);
    });
  }

  /** @param {string} path @returns {boolean} */
  function has(path) {
    return places.has(path);
  }

  /** @param {string} path @returns {Promise<Uint8Array>} */
  async function bytes(path) {
    const place = places.get(path);
    if (!place) throw new RangeError(`This copy does not hold ${path}.`);
    const id = `pocket_group-${place.group}`;
    if (!open.has(place.group)) await arrived(id);
    const group = open.get(place.group) || taken(id, sizes[place.group]);
    open.set(place.group, group);
    return group.subarray(place.from, place.to);
  }

  /** Data that was written as pages write it, made a script again: see builder/pocket/quoted.py. @param {string} text */
  function quoted(text) {
    return text.replace(/\\.|["\n\u0002\u0003]/g, (token) => QUOTED.get(token) || token);
  }

  /** Lines that stand in many files stand in the list, and in the files a mark. @param {string} path @returns {Promise<string>} */
  async function text(path) {
    const marked = new TextDecoder().decode(await bytes(path));
    const whole = marked.replace(/\u0001(.)(.)/g, (mark) => lines[(mark.charCodeAt(1) - 0x21) * 94 + mark.charCodeAt(2) - 0x21]);
    return whole.includes("\u0002") ? quoted(whole) : whole;
  }

  /** The address of a file for as long as this copy is open. @param {string} path @returns {Promise<string>} */
  async function address(path) {
    const known = addresses.get(path);
    if (known) return known;
    const type = TYPES[/** @type {keyof typeof TYPES} */ (path.split(".").pop())] || "";
    const made = URL.createObjectURL(new Blob([/** @type {any} */ (await bytes(path))], { type }));
    addresses.set(path, made);
    return made;
  }

  Object.assign(pocket, { unpacked, quoted, ready, has, text, address });
})();
