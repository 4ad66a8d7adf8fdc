/**
 * What `seambook show` gives in place of a book's worker: a book was once kept from this very address, and would hide
 * what is being written. It takes the old worker away and what that one kept.
 */
(function () {
  "use strict";

  /** @type {any} */
  const worker = self;

  async function clear() {
    const names = (await caches.keys()).filter((name) => name.startsWith("seambook "));
    await Promise.all(names.map((name) => caches.delete(name)));
    await worker.registration.unregister();
    const pages = await worker.clients.matchAll({ type: "window" });
    for (const page of pages) page.navigate(page.url);
  }

  worker.addEventListener("install", () => worker.skipWaiting());
  worker.addEventListener("activate", (/** @type {any} */ event) => event.waitUntil(clear()));
})();
