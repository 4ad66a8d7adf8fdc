/**
 * One page of the copy, shown in a frame of its own, so that nothing of the page before lives on in it. What the page
 * would load from the folder comes out of the copy; ways inside the book are gone by the copy's own address.
 */
(function () {
  "use strict";

  /** @typedef {{path: string, fragment: string}} Goal */

  /** @type {any} */
  const pocket = (/** @type {any} */ (window).seambookPocket = /** @type {any} */ (window).seambookPocket || {});
  const SCRIPT = /<script defer src="([^"]+)"><\/script>\n?/g;
  const SHEET = /<link rel="stylesheet" href="([^"]*)"[^>]*>\n?/g;
  const REST = /<meta http-equiv="Content-Security-Policy"[^>]*>\n?|<link rel="(?:icon|manifest)"[^>]*>\n?/g;
  const PICTURE = /(<img\b[^>]*? src=")([^":]+)("[^>]*>)/g;
  const CHOICE = / srcset="[^"]*"/; // the other sizes of a picture, of which the copy shows one
  const LEAVING = 1000; // milliseconds a page that is left has to put down what it holds

  /** A way as a page says it, from the book's root. @param {string} way @param {string} page @returns {Goal} */
  function resolved(way, page) {
    const at = way.indexOf("#");
    const file = at < 0 ? way : way.slice(0, at);
    const fragment = at < 0 ? "" : way.slice(at);
    if (!file) return { path: page, fragment };
    const parts = page.split("/").slice(0, -1);
    for (const part of file.split("/")) {
      if (part === "..") parts.pop();
      else if (part !== "." && part) parts.push(part);
    }
    return { path: parts.join("/"), fragment };
  }

  /** An empty sheet of a picture's size. @param {unknown} width @param {unknown} height */
  function empty(width, height) {
    return `data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' width='${Number(width) || 1}' height='${Number(height) || 1}'/%3E`;
  }

  /**
   * Pictures lie further down in the copy than pages: a page is shown before they are read, with an empty sheet of their
   * size in their place, so that nothing moves when they come. @param {string} html @param {string} page
   */
  function withPlaces(html, page) {
    return html.replace(PICTURE, (all, before, source, after) => {
      const { path } = resolved(source, page);
      if (!pocket.has(path)) return all;
      const [width, height] = ["width", "height"].map((side) => (new RegExp(` ${side}="(\\d+)"`).exec(all) || [])[1]);
      return `${before}${empty(width, height)}" data-held="${path}${after.replace(CHOICE, "")}`;
    });
  }

  /** Put the pictures in, the upper ones first. @param {ParentNode} part */
  async function fill(part) {
    for (const picture of part.querySelectorAll("img[data-held]")) {
      const { held } = /** @type {HTMLElement} */ (picture).dataset;
      picture.removeAttribute("data-held");
      picture.setAttribute("src", await pocket.address(held));
    }
  }

  /** The same for what a script of the page is about to show. @param {ParentNode} part @param {string} page */
  function pictures(part, page) {
    for (const picture of part.querySelectorAll("img[src]")) {
      const { path } = resolved(picture.getAttribute("src") || "", page);
      if (!pocket.has(path)) continue;
      picture.removeAttribute("srcset");
      picture.setAttribute("src", empty(picture.getAttribute("width"), picture.getAttribute("height")));
      picture.setAttribute("data-held", path);
    }
    void fill(part);
  }

  /** @param {string} path @returns {Promise<{html: string, scripts: string[]}>} */
  async function read(path) {
    const html = withPlaces(await pocket.text(path), path);
    const scripts = [...html.matchAll(SCRIPT)].map((one) => resolved(one[1], path).path);
    const styles = await Promise.all([...html.matchAll(SHEET)].map((one) => pocket.text(resolved(one[1], path).path)));
    const bare = html.replace(SCRIPT, "").replace(REST, "").replace("<body ", '<body data-copy="pocket" ');
    return { html: bare.replace(SHEET, () => `<style>${styles.shift()}</style>\n`), scripts };
  }

  /** Run scripts of the book in a frame's page, in their order. @param {Document} page @param {string[]} paths */
  async function run(page, paths) {
    const held = paths.filter((path) => pocket.has(path));
    if (!held.length) return;
    const texts = await Promise.all(held.map((path) => pocket.text(path)));
    const address = URL.createObjectURL(new Blob(texts.map((text) => `${text}\n;\n`), { type: "text/javascript" }));
    await new Promise((done, failed) => {
      const script = page.createElement("script");
      script.src = address;
      script.onload = done;
      script.onerror = () => failed(new Error(paths.join(", ")));
      page.head.append(script);
    }).finally(() => URL.revokeObjectURL(address));
  }

  /** @returns {HTMLIFrameElement} */
  function frame() {
    const made = document.createElement("iframe");
    made.className = "pocket-leaf";
    made.setAttribute("allow", "screen-wake-lock *; clipboard-write *; autoplay *; fullscreen *");
    return made;
  }

  /**
   * Make a page.
   * @param {string} path @param {string} fragment @param {any} ways how it moves on
   * @returns {Promise<{frame: HTMLIFrameElement, path: string, started: Promise<void>}>}
   */
  async function make(path, fragment, ways) {
    const { html, scripts } = await read(path);
    const made = frame();
    document.body.append(made);
    const view = /** @type {any} */ (made.contentWindow);
    const page = /** @type {Document} */ (made.contentDocument);
    page.open();
    page.write(html);
    page.close();
    made.title = page.title;
    view.seambook = {
      inside: {
        ...ways,
        pictures: (/** @type {ParentNode} */ part) => pictures(part, path),
        insert: (/** @type {string} */ file) => (pocket.has(file) ? run(page, [file]) : Promise.reject(new Error(file))),
      },
    };
    if (fragment) view.location.replace(fragment);
    return { frame: made, path, started: run(page, scripts).then(() => fill(page)) };
  }

  /** Leave a page: it is told as if it were closed, and gone once it had time to put down what it holds. @param {any} leaf */
  function leave(leaf) {
    const left = leaf.frame;
    left.contentWindow.dispatchEvent(new Event("pagehide"));
    left.hidden = true;
    left.title = "";
    window.setTimeout(() => left.remove(), LEAVING);
  }

  Object.assign(pocket, { resolved, make, leave });
})();
