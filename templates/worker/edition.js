/**
 * What this worker keeps: one edition of one book at one address. An edition is known by the hash of its list of hashes,
 * so that two that differ in one byte of one file have different names, and their files never lie together.
 */
(function () {
  "use strict";

  /** @type {any} */
  const worker = self;
  const { book, edition } = worker.seambookEdition;
  const root = new URL("./", worker.location.href);
  /* Several books, or one at two paths, may share an address and its storage. */
  const ours = `seambook ${root.pathname} ${book} `;

  /** The path in the book that an address means; null where it is none of the book. @param {string} address */
  function pathOf(address) {
    const url = new URL(address);
    if (url.origin !== root.origin || !url.pathname.startsWith(root.pathname)) return null;
    let path = url.pathname.slice(root.pathname.length);
    try {
      path = decodeURIComponent(path);
    } catch {
      return null;
    }
    return path === "" || path.endsWith("/") ? `${path}index.html` : path;
  }

  /** @param {string} path @returns {string} */
  function addressOf(path) {
    return new URL(path.split("/").map(encodeURIComponent).join("/"), root).href;
  }

  const TYPES = /** @type {Record<string, string>} */ ({
    html: "text/html; charset=utf-8", css: "text/css; charset=utf-8", js: "text/javascript; charset=utf-8",
    json: "application/json", webmanifest: "application/manifest+json", svg: "image/svg+xml", png: "image/png",
    jpg: "image/jpeg", jpeg: "image/jpeg", webp: "image/webp", sha256: "text/plain; charset=utf-8",
  });

  /**
   * An answer of the book, with a type of ours: a server's may be wrong, and a page must not hang on it.
   * @param {string} path @param {BufferSource} bytes
   */
  function answer(path, bytes) {
    const type = TYPES[path.slice(path.lastIndexOf(".") + 1).toLowerCase()] || "application/octet-stream";
    return new Response(bytes, { headers: { "Content-Type": type, "X-Content-Type-Options": "nosniff" } });
  }

  worker.seambookWorker = {
    book, edition, root, ours, pathOf, addressOf, answer,
    store: `${ours}${edition}`, choice: `${ours}choice`, LIST: "files.sha256", CONTENTS: "delivery.json", WORKER: "worker.js",
  };
})();
