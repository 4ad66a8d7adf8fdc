/**
 * The worker's life and what it says to pages. The browser itself keeps a new edition waiting while a page of the old
 * one is open, and it is not even that before all its files are there.
 */
(function () {
  "use strict";

  /** @type {any} */
  const worker = self;
  /** @type {any} */
  const seambook = worker.seambookWorker;
  const { edition, ours, choice } = seambook;
  const OFTEN = 250;
  /* Milliseconds between two words on how far it is. */

  /** Every open page of this book, whichever edition it is of. @returns {Promise<any[]>} */
  async function pages() {
    const all = await worker.clients.matchAll({ type: "window", includeUncontrolled: true });
    return all.filter((/** @type {any} */ one) => seambook.pathOf(one.url) !== null);
  }

  /** @param {Record<string, any>} words */
  async function say(words) {
    for (const page of await pages()) page.postMessage({ seambook: { edition, ...words } });
  }

  function teller() {
    let last = 0;
    return (/** @type {number} */ done, /** @type {number} */ of) => {
      if (done < of && Date.now() - last < OFTEN) return;
      last = Date.now();
      void say({ done, of });
    };
  }

  /** @param {any} error */
  function told(error) {
    const { why = "full", path = "", told: more = String(error) } = error || {};
    return { why, path, told: more };
  }

  async function install() {
    try {
      await seambook.keep(teller());
    } catch (error) {
      await say({ fault: told(error) });
      throw error;
    }
  }

  async function activate() {
    const others = (await caches.keys()).filter((name) => name.startsWith(ours) && name !== seambook.store && name !== choice);
    await Promise.all(others.map((name) => caches.delete(name)));
    /* The page that brought the first edition shall find it when the network goes; later ones change with their page. */
    if (!others.length) await worker.clients.claim();
    await say({ isUsed: true });
  }

  /** Take the place of the old edition, if the page that asks is the only one. @returns {Promise<{others: number}>} */
  async function use() {
    const others = (await pages()).length - 1;
    if (others <= 0) await worker.skipWaiting();
    return { others: Math.max(0, others) };
  }

  /* What changes the store goes one after the other: of two procedures chosen at once none shall be forgotten. */
  let turn = Promise.resolve();

  /** @param {() => Promise<void>} work @returns {Promise<void>} */
  function inTurn(work) {
    const done = turn.then(work);
    turn = done.catch(() => {});
    return done;
  }

  /** @param {any} asked */
  async function answered(asked) {
    if (asked.ask === "state") return seambook.state();
    if (asked.ask === "choice") return seambook.choiceOf(asked.id);
    if (asked.ask === "use") return use();
    if (asked.ask === "keep") await inTurn(() => seambook.keep(teller()));
    if (asked.ask === "change") await inTurn(() => seambook.change(asked.id, asked.isKept, teller()));
    return seambook.state();
  }

  worker.addEventListener("install", (/** @type {any} */ event) => event.waitUntil(install()));
  worker.addEventListener("activate", (/** @type {any} */ event) => event.waitUntil(activate()));
  worker.addEventListener("message", (/** @type {any} */ event) => {
    const [port] = event.ports;
    if (!port || !event.data || !event.data.ask) return;
    event.waitUntil(answered(event.data).then((answer) => port.postMessage({ answer }),
      (error) => port.postMessage({ fault: told(error) })));
  });
})();
