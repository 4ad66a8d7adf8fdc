/**
 * The book as a place: its files are brought and its pages gone to through here alone, so that a copy of the book in one
 * file can bring and go from inside itself. Paths and addresses are said from the book's root.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const root = document.body.dataset.root || "";
  /** @type {Map<string, Promise<void>>} */
  const asked = new Map();

  /** @param {string} path the file of a page or a script @returns {string} where this page finds it */
  function address(path) {
    return root + path;
  }

  /** Run a script of the book, from a folder nothing else can be loaded. @param {string} path @returns {Promise<void>} */
  function insert(path) {
    return new Promise((done, failed) => {
      const script = document.createElement("script");
      script.src = address(path);
      script.onload = () => done();
      script.onerror = () => {
        script.remove();
        failed(new Error(path));
      };
      document.head.append(script);
    });
  }

  /** Go to a page of the book, or with a mere "#..." to a place or a state of this page. @param {string} to */
  function move(to) {
    if (to.startsWith("#")) window.location.hash = to;
    else window.location.href = address(to);
  }

  /** Say in the address what this page shows now, without going anywhere. @param {string} fragment "#..." or nothing */
  function keep(fragment) {
    try {
      window.history.replaceState(null, "", fragment || window.location.pathname + window.location.search);
    } catch {
      /* Refused where the page is opened from some apps; the page works without. */
    }
  }

  /** @param {string} fragment "#..." @returns {string} the whole address of this page with it, to be handed on */
  function here(fragment) {
    return window.location.href.split("#")[0] + fragment;
  }

  /** Before a part with pictures is shown: from a folder they are found where they say. @param {ParentNode} _part */
  function pictures(_part) {}

  const ways = { insert, move, keep, here, pictures, ...seambook.inside };

  /** Mark-up that came with the book, to be put on the page; parsed apart from it, where nothing in it can run.
   * @param {string} html @returns {ChildNode[]} */
  function nodes(html) {
    const { body } = new DOMParser().parseFromString(html, "text/html");
    ways.pictures(body);
    return [...body.childNodes];
  }

  /** Load a script once; after a failure it may be asked for again. @param {string} path @returns {Promise<void>} */
  function bring(path) {
    const known = asked.get(path);
    if (known) return known;
    /** @type {Promise<void>} */
    const bringing = ways.insert(path).catch((/** @type {unknown} */ fault) => {
      asked.delete(path);
      throw fault;
    });
    asked.set(path, bringing);
    return bringing;
  }

  seambook.folder = { bring, address, move: ways.move, keep: ways.keep, here: ways.here, nodes };
})();
