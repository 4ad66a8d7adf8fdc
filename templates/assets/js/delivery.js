/**
 * The book had from a server: its manifest, the worker that keeps it on this device, and the word that a new edition is
 * here. Added by script and only there, since a folder, or a copy in one file, needs none of it and may load none.
 */
(function () {
  "use strict";

  /** @typedef {"folder" | "pocket" | "preview" | "plain" | "refused" | "served"} Way */
  /** @typedef {{why: string, path: string, told: string}} Fault */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { root = "", path = "", copy = "", book = "" } = document.body.dataset;
  const THIS_DEVICE = new Set(["localhost", "127.0.0.1", "[::1]"]);
  const LATER = `seambook:${book}:later`;
  const PREVIEW = 'script[src^="/_seambook/"]';
  const SOON = 3000;
  const HOUR = 3600 * 1000;
  /* A page that stays open for days asks for a new edition when it is looked at again, once an hour at most. */

  /** How this page was come by. @returns {Way} */
  function cameBy() {
    if (copy === "pocket") return "pocket";
    if (!location.protocol.startsWith("http")) return "folder";
    if (document.querySelector(PREVIEW)) return "preview";
    if (location.protocol !== "https:" && !THIS_DEVICE.has(location.hostname)) return "plain";
    return "serviceWorker" in navigator ? "served" : "refused";
  }

  /** @type {{way: Way, registration: any, progress: {done: number, of: number} | null, fault: Fault | null}} */
  const now = { way: cameBy(), registration: null, progress: null, fault: null };
  /** @type {(() => void)[]} */
  const heard = [];
  let [isTaking, looked, before] = [false, Date.now(), 0];

  function tell() {
    for (const one of heard) one();
  }

  /** Ask a worker. @param {any} worker @param {Record<string, any>} words @returns {Promise<any>} rejected with a `Fault` */
  function ask(worker, words) {
    return new Promise((done, failed) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = ({ data }) => {
        port1.close();
        if (data.fault) failed(data.fault);
        else done(data.answer);
      };
      worker.postMessage(words, [port2]);
    });
  }

  /** @param {string} rel @param {string} to */
  function link(rel, to) {
    const made = document.createElement("link");
    made.rel = rel;
    made.href = root + to;
    document.head.append(made);
  }

  async function register() {
    try {
      const scope = root || "./";
      now.registration = await navigator.serviceWorker.register(`${root}worker.js`, { scope, updateViaCache: "none" });
      now.registration.addEventListener("updatefound", watch);
      if (now.registration.installing) watch();
      seambook.delivery.announce();
    } catch (error) {
      now.fault = { why: navigator.onLine ? "denied" : "away", path: "", told: String(error) };
    }
    tell();
  }

  /** Follow an edition on its way, until it is here or has failed. */
  function watch() {
    const coming = now.registration.installing;
    if (!coming) return;
    [now.progress, now.fault] = [{ done: 0, of: 0 }, null];
    coming.addEventListener("statechange", () => {
      if (coming.state === "redundant") failed(now.progress ? now.progress.done : 0);
      if (coming.state !== "installing") now.progress = null;
      if (coming.state === "installed") putOff(false);
      seambook.delivery.announce();
      tell();
    });
    tell();
  }

  /**
   * Browsers end a worker that takes long. As long as each try brings files, the next goes on from there by itself.
   * @param {number} done
   */
  function failed(done) {
    if (!now.fault && done > before) window.setTimeout(look, SOON);
    before = done;
    now.fault = now.fault || { why: "away", path: "", told: "" };
  }

  /** Ask the server for a newer edition, or for what was cut short. */
  function look() {
    if (now.way !== "served") return;
    looked = Date.now();
    if (now.registration) now.registration.update().catch(() => {});
    if (!now.registration || !(now.registration.active || now.registration.installing)) void register();
  }

  function listen() {
    const hasWorker = !!navigator.serviceWorker.controller;
    navigator.serviceWorker.addEventListener("message", ({ data }) => {
      const said = data && data.seambook;
      if (!said) return;
      if (said.fault) now.fault = said.fault;
      if (said.of) now.progress = said.done < said.of ? { done: said.done, of: said.of } : null;
      tell();
    });
    // A page of one edition never goes on with the files of another.
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (hasWorker || isTaking) location.reload();
      else tell();
    });
    window.addEventListener("online", look);
    document.addEventListener("visibilitychange", () => {
      if (!document.hidden && Date.now() - looked > HOUR) look();
    });
  }

  /** Whether the reader has put the new edition off; the browser forgets it when the tab is closed. @param {boolean} [isOff] */
  function putOff(isOff) {
    try {
      if (isOff !== undefined) window.sessionStorage.setItem(LATER, isOff ? "yes" : "");
      return window.sessionStorage.getItem(LATER) === "yes";
    } catch {
      return false;
    }
  }

  /** Change to the edition that waits. @returns {Promise<number>} how many other pages of the old one are in the way */
  async function take() {
    const waiting = now.registration?.waiting;
    if (!waiting) return 0;
    isTaking = true;
    const { others } = await ask(waiting, { ask: "use" });
    isTaking = others === 0;
    return others;
  }

  seambook.delivery = {
    now, path, ask: (/** @type {Record<string, any>} */ words) => ask(now.registration?.active, words), take, putOff, look,
    hear: (/** @type {() => void} */ listener) => heard.push(listener), announce: () => {},
  };
  if (now.way !== "served") return;
  link("manifest", "seambook.webmanifest");
  link("apple-touch-icon", "assets/icon-192.png");
  listen();
  // After all that the page itself needs: what is kept for later must not hold up what is read now.
  if (document.readyState === "complete") void register();
  else window.addEventListener("load", () => void register());
})();
