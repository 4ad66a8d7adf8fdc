/**
 * Answers: every file of the book comes from this edition, whole, or not at all. What is not kept is asked of the server
 * and held against the list, so that a server with another edition never mixes into the pages that are open.
 */
(function () {
  "use strict";

  /** @type {any} */
  const worker = self;
  /** @type {any} */
  const seambook = worker.seambookWorker;
  const { LIST, WORKER, addressOf } = seambook;
  const DEVICE = "device.html";

  /** @param {string} path @param {boolean} isPage @returns {Promise<Response>} */
  async function served(path, isPage) {
    const store = await caches.open(seambook.store);
    const kept = await store.match(addressOf(path));
    if (kept) return kept;
    try {
      const hash = (await seambook.list()).get(path);
      if (!hash) return await fetch(addressOf(path), { cache: "no-cache", credentials: "same-origin" });
      return seambook.answer(path, await seambook.had(path, hash));
    } catch (error) {
      if (!isPage || path === DEVICE) return Response.error();
      const why = error instanceof seambook.Fault ? /** @type {any} */ (error).why : "away";
      return Response.redirect(`${addressOf(DEVICE)}#missing=${encodeURIComponent(path)}&why=${why}`, 302);
    }
  }

  worker.addEventListener("fetch", (/** @type {any} */ event) => {
    const { request } = event;
    const path = request.method === "GET" ? seambook.pathOf(request.url) : null;
    if (path === null || path === WORKER || path === LIST) return;
    event.respondWith(served(path, request.mode === "navigate"));
  });
})();
