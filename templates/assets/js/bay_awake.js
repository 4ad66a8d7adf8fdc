/**
 * The screen kept on while the page is in front, where the browser lets it; where not, that is said with why. It is a choice of the
 * device, kept on it. Needs job_dom.js.
 */
(function () {
  "use strict";

  /** @typedef {"off" | "on" | "away" | "insecure" | "missing" | "refused"} Sort */

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const OWN_WAY = "Set the screen's own time-out on the phone to its longest.";
  /** @type {Record<Sort, string>} */
  const SAID = {
    on: "The screen stays on while this page is in front.",
    away: "The screen stays on again as soon as this page is in front.",
    off: "The screen goes off as the phone is set.",
    insecure: `Not possible here: browsers keep the screen on only for a book opened from disk or over https. ${OWN_WAY}`,
    missing: `Not possible here: this browser cannot keep the screen on. ${OWN_WAY}`,
    refused: `The phone refused, perhaps because it is saving its battery. Plug it in or end the saving, then press again. Or: ${OWN_WAY.charAt(0).toLowerCase()}${OWN_WAY.slice(1)}`,
  };

  /** @type {any} */
  let lock = null;
  let isStarted = false;
  let isRefused = false;
  let isAsking = false;
  let memory = "";
  /** Where it is shown. @type {Map<HTMLElement, () => void>} */
  const places = new Map();

  const key = () => `seambook:${document.body.dataset.book || ""}:awake`;

  /** Kept on unless somebody chose otherwise on this device. */
  function isWanted() {
    try {
      return (window.localStorage.getItem(key()) || memory) !== "no";
    } catch {
      return memory !== "no";
    }
  }

  /** @param {boolean} is */
  function want(is) {
    memory = is ? "yes" : "no";
    try {
      window.localStorage.setItem(key(), memory);
    } catch {
      // Without storage the choice lasts as long as the page.
    }
  }

  /** @returns {Sort} */
  function sort() {
    if (!page.navigator.wakeLock) return window.isSecureContext ? "missing" : "insecure";
    if (!isWanted()) return "off";
    if (lock) return "on";
    return isRefused ? "refused" : "away";
  }

  function tell() {
    for (const [place, draw] of places) {
      if (place.isConnected) draw();
      else places.delete(place);
    }
  }

  /** Ask for it; the browser lets go whenever the page is not in front, so it is asked for each time that it comes back. */
  async function hold() {
    if (lock || isAsking || !isWanted() || !page.navigator.wakeLock || document.visibilityState !== "visible") return;
    isAsking = true;
    try {
      const got = await page.navigator.wakeLock.request("screen");
      isRefused = false;
      got.addEventListener("release", () => released(got));
      if (isWanted()) lock = got;
      else await got.release();
    } catch {
      isRefused = true;
    }
    isAsking = false;
    tell();
  }

  /** @param {any} got */
  function released(got) {
    if (lock === got) lock = null;
    tell();
  }

  /** @param {boolean} is */
  async function choose(is) {
    want(is);
    if (is) await hold();
    else await lock?.release();
    tell();
  }

  /** Keep the screen on from now, if that is the choice. */
  function start() {
    if (!isStarted) document.addEventListener("visibilitychange", () => void hold());
    isStarted = true;
    void hold();
  }

  /** The switch with what is so. @param {HTMLElement} place */
  function mount(place) {
    const { el } = seambook.dom;
    const press = el("button", { type: "button", class: "control", id: "bay_awake_switch", role: "switch", on: { click: () => void choose(!(sort() === "on" || sort() === "away")) } }, "Keep the screen on");
    const said = el("p", { class: "note", id: "bay_awake_said", role: "status" });
    const draw = () => {
      const is = sort();
      press.disabled = is === "insecure" || is === "missing";
      press.setAttribute("aria-checked", String(is === "on" || is === "away"));
      if (said.textContent !== SAID[is]) said.textContent = SAID[is];
    };
    place.classList.add("bay-awake");
    place.replaceChildren(press, said);
    places.set(place, draw);
    draw();
    start();
  }

  seambook.bayAwake = { mount, start, sort };
})();
