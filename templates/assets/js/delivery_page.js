/**
 * The page "On this device": whether the book is kept here, how much of it, what went wrong, and of a book above its
 * limit which procedures. Needs delivery.js and job_dom.js.
 */
(function () {
  "use strict";

  /** @typedef {{id: string, title: string, bytes: number, isKept: boolean, adds: number}} Kept */
  /** @typedef {{edition: string, isWhole: boolean, most: number | null, bytes: number, core: number, kept: number, isComplete: boolean, procedures: Kept[]}} State */

  /** @type {any} */
  const { delivery, dom } = /** @type {any} */ (window).seambook;
  const { el, button, redraw } = dom;
  const MB = 1e6;
  const LISTED = 400;
  const EDITION = 12;

  const WAYS = /** @type {Record<string, string[]>} */ ({
    folder: ["This book was opened from a folder. All of it lies in that folder, and it needs no network.",
      "To have a newer one, put the newer folder in its place."],
    pocket: ["This is a pocket copy: all of it lies in one file, and it needs no network.",
      "To have a newer one, ask for the newer file."],
    preview: ["This is the book as it is being written. Nothing of it is kept, so that each change is seen at once."],
    plain: ["This book comes over http. Browsers keep a book only where it comes over https, so this one needs the network.",
      "Whoever looks after the server can give it a certificate. Until then have the folder or the pocket copy on the device."],
    refused: ["This browser keeps nothing of a site, as in some private windows. The book reads as long as there is a network.",
      "Open it in an ordinary window, or have the folder or the pocket copy on the device."],
  });
  const WHY = /** @type {Record<string, (fault: any) => string>} */ ({
    away: () => "The server could not be reached. What came so far is kept, and it goes on when the network is back.",
    refused: (fault) => `The server did not give ${fault.path || "a file"} (it answered ${fault.told}). Whoever looks after it must put the whole folder there.`,
    damaged: (fault) => `${fault.path} came damaged, twice. It is not used. Whoever looks after the server must put the whole folder there again.`,
    other: () => "The server is just being given another edition, or holds parts of two. Nothing of it is used until it is whole.",
    full: () => "This device has no room for it, or refuses to keep it. Make room, or keep fewer procedures.",
    denied: (fault) => `The browser refuses to keep the book (${fault.told}).`,
  });
  const MISSING = /** @type {Record<string, string>} */ ({
    away: "It is not kept on this device, and the server cannot be reached.",
    other: "It is not kept on this device, and the server has another edition, which is not mixed with this one.",
    damaged: "It is not kept on this device, and the server has another edition of it or a damaged one. Close all pages of this book, then open it again.",
    refused: "It is not kept on this device, and the server does not give it.",
    full: "It could not be read from this device.",
  });

  const place = document.getElementById("device_desk");
  if (!place) return;
  /** @type {State | null} */
  let state = null;
  /** @type {any} */
  let failed = null;
  let isStored = false;
  let busy = "";

  /** @param {number} bytes */
  function size(bytes) {
    const count = bytes / MB;
    return `${count < 10 ? count.toFixed(1) : Math.round(count)} MB`;
  }

  /** A page that was asked for and is not to be had. */
  function missing() {
    const asked = new URLSearchParams(location.hash.slice(1));
    const path = asked.get("missing");
    if (!path) return null;
    const known = state?.procedures.find((one) => path === `procedures/${one.id}.html`);
    return el("div", { class: "device-missing", role: "alert" }, el("p", {}, el("strong", { text: `${known ? `“${known.title}”` : path} cannot be shown.` })),
      el("p", { text: MISSING[asked.get("why") || "away"] || MISSING.away }));
  }

  function progress() {
    const { progress: on } = delivery.now;
    if (!on) return null;
    const share = on.of ? Math.floor(100 * on.done / on.of) : 0;
    return el("div", {}, el("p", { id: "device_progress", text: on.of ? `Being kept: ${on.done} of ${on.of} files.` : "Being kept ..." }),
      el("progress", { max: "100", value: share, "aria-labelledby": "device_progress" }));
  }

  function fault() {
    const found = failed || delivery.now.fault;
    if (!found) return null;
    return el("div", { class: "device-fault" }, el("p", { text: (WHY[found.why] || WHY.full)(found) }),
      el("p", {}, button("Try again", again, { id: "device_again" })));
  }

  /** @param {State} one */
  function standing(one) {
    const edition = one.edition.slice(0, EDITION);
    const whole = one.isWhole
      ? `The whole book is kept on this device (${size(one.bytes)}). It reads without a network.`
      : `This book is ${size(one.bytes)}, more than the ${size(one.most || 0)} that are kept whole. Kept are its lists, its search, the calculators of the procedures kept, and the procedures that you choose: ${size(one.kept)} so far.`;
    return el("div", {},
      el("p", { id: "device_standing", text: one.isComplete ? whole : "Not all that is to be kept is on this device yet." }),
      el("p", { class: "note", text: `Edition ${edition}. ${isStored ? "The browser has promised not to clear it by itself." : "The browser may clear it when the device runs short of room; then it comes again from the server."}` }),
      isStored ? null : el("p", {}, button("Ask the browser never to clear it", stay, { id: "device_stay" })));
  }

  /** @param {Kept} one */
  function row(one) {
    const said = one.isKept ? "kept" : `${size(one.adds)} more`;
    const label = busy === one.id ? "Being kept ..." : "Keep on this phone";
    return el("li", {}, el("a", { href: `procedures/${one.id}.html`, text: one.title || one.id }), el("span", { class: "note", text: said }),
      button(label, () => void choose(one), { id: `device_keep-${one.id}`, "aria-pressed": String(one.isKept), "aria-label": `${label}: ${one.title || one.id}` }));
  }

  /** @param {State} one */
  function procedures(one) {
    if (one.isWhole) return null;
    const listed = one.procedures.length <= LISTED ? one.procedures : one.procedures.filter((each) => each.isKept);
    return el("div", {}, el("h2", { text: "Procedures to keep" }),
      el("p", { text: "With each come the seams, panels, tools, calculators and procedures that it needs." }),
      listed.length < one.procedures.length ? el("p", { text: "Here are those that are kept. Others are kept at the foot of their own page." }) : null,
      el("ul", { class: "list device-list" }, listed.map(row)));
  }

  function draw() {
    redraw(place, () => place?.replaceChildren(...[
      missing(), ...(WAYS[delivery.now.way] || []).map((text) => el("p", { text })), progress(), fault(),
      state ? standing(state) : null, waiting(), state ? procedures(state) : null,
    ].filter(Boolean)));
  }

  function waiting() {
    return delivery.now.registration?.waiting && state
      ? el("p", { id: "device_waiting", text: "A new edition is here, too. It is used when all pages of this book are closed." }) : null;
  }

  async function read() {
    const { registration } = delivery.now;
    if (registration?.active) state = await delivery.ask({ ask: "state" }).catch(() => state);
    isStored = !!(await navigator.storage?.persisted?.().catch(() => false));
    draw();
  }

  /** @param {Record<string, any>} words */
  async function work(words) {
    failed = null;
    try {
      state = await delivery.ask(words);
    } catch (error) {
      failed = error;
    }
    await read();
  }

  /** @param {Kept} one */
  async function choose(one) {
    busy = one.isKept ? "" : one.id;
    draw();
    await work({ ask: "change", id: one.id, isKept: !one.isKept });
    busy = "";
    draw();
  }

  function again() {
    [failed, delivery.now.fault] = [null, null];
    if (delivery.now.registration?.active) void work({ ask: "keep" });
    delivery.look();
    draw();
  }

  async function stay() {
    isStored = !!(await navigator.storage?.persist?.().catch(() => false));
    draw();
    if (!isStored) document.getElementById("device_stay")?.after(el("p", { class: "note", role: "status", text: "The browser does not promise it now. Some do once the book is on the home screen." }));
  }

  document.getElementById("device_without")?.remove();
  delivery.hear(() => (delivery.now.progress ? draw() : void read()));
  window.addEventListener("hashchange", draw);
  void read();
})();
