/**
 * The page of the bay, started last: opens the store, goes by the address, shows the first step, and then brings what the order of
 * a whole job is worked out with. Needs all the rest.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { dom, folder, jobBar, jobKeep, jobStore, jobFile, jobEntries, bayDesk, bayDrawing, bayOpen } = seambook;
  const place = document.getElementById("bay");
  if (!place || !seambook.jobBook) return;
  const bay = place;
  const cartKey = `seambook:${document.body.dataset.book || ""}:bay-cart`;
  /** @type {any} */
  let store = null;
  let frame = /** @type {any} */ (null);
  /** @type {Promise<void> | null} */
  let planner = null;
  let turn = 0;

  const page = {
    plan: (/** @type {any} */ job, /** @type {any} */ before) => seambook.bayPlan.of(job, before),
    draw: (/** @type {any} */ one, /** @type {boolean} */ isTyping) => {
      if (one !== bayDesk.kept()) return;
      bayDesk.draw(isTyping);
      settleAddress(one);
    },
    go: (/** @type {string} */ id) => goTo(`#job=${encodeURIComponent(id)}`),
    gone: () => tell("This job was deleted in another tab.", []),
  };

  /** Once it is kept, a job is found again by its own name: also when it is done. @param {any} one */
  function settleAddress(one) {
    const own = `#job=${encodeURIComponent(one.state.job.id)}`;
    if ((one.revision || one.dirty) && window.location.hash !== own) folder.keep(own);
  }

  /** @param {string} hash */
  function goTo(hash) {
    if (window.location.hash === hash) void route();
    else folder.move(hash);
  }

  /** Say what there is in place of a step. @param {string} text @param {any[]} ways */
  function tell(text, ways) {
    frame.place.replaceChildren(dom.el("article", { class: "bay-step bay-choice" }, dom.el("h2", { class: "do", id: "bay_do", tabindex: "-1", text }), dom.el("div", { class: "bay-list" }, ways,
      dom.el("a", { class: "control bay-wide", href: folder.address("lists.html#procedure"), text: "Procedures" }), dom.el("a", { class: "control bay-wide", href: folder.address("jobs.html"), text: "Jobs" }))));
    seambook.bayFrame.shut(bay, true);
  }

  async function route() {
    const mine = (turn += 1);
    const want = bayOpen.asked(window.location.hash);
    const open = bayDesk.kept();
    if (want.job && open && open.state.job.id === want.job) return;
    open?.hurry();
    /** @type {any} */
    const found = await bayOpen.open(store, want);
    if (mine !== turn) return;
    seambook.bayFrame.shut(bay, false);
    if (found.fault) tell(found.fault, []);
    else if (found.sides) tell(`${found.sides}: on which side?`, bayOpen.SIDES.map((/** @type {string} */ side) => dom.el("a", { class: "primary bay-wide", href: `#procedure=${want.procedure}&side=${side}`, text: side === "left" ? "Left" : "Right" })));
    else await show(found.job, found.revision, found.told, mine);
  }

  /** @param {any} job @param {number} revision @param {string[]} told @param {number} mine */
  async function show(job, revision, told, mine) {
    const missing = await seambook.jobLibrary.procedures(job.runs.map((/** @type {any} */ run) => run.procedure));
    if (mine !== turn) return;
    if (missing.length) jobBar.tell("library", "Part of the book is missing", [`Not found beside this page: ${missing.join(", ")}. Copy the whole folder of the book.`], [jobBar.shut("library", "Close")]);
    if (told.length) jobBar.tell("file", "About this job", told, [jobBar.shut("file", "Close")]);
    const kept = jobKeep.open(store, job, revision, page);
    bayDesk.open(kept, { bringParts, afresh, isCart, setCart, askForFile });
    tellOfBook(kept);
    if (!revision && !job.alone) kept.change(() => undefined, { isLater: true });
    if (!jobEntries.name()) bayDesk.askWho();
    planner = planner || later().then(() => bayDrawing.bring(bayDrawing.listed(bay.dataset.planner || "")));
    await planner.catch(() => jobBar.say("What works out the order of a job was not found beside this page."));
    if (mine === turn && !job.alone) await kept.refresh();
  }

  /** What of the book has changed since the job was planned. @param {any} kept */
  function tellOfBook(kept) {
    const { compared, book } = kept.state;
    if (!compared?.told.length) return jobBar.clear("book");
    return jobBar.tell("book", "The book has changed since this job was made", compared.told.map((/** @type {any} */ { say }) => say), [
      ...(compared.told.every((/** @type {any} */ { sort }) => sort === "revised") ? [{ label: "Go on with the book as it is now", take: () => {
        kept.change((/** @type {any} */ job) => jobFile.renew(job, book), { isLater: true });
        jobBar.clear("book");
      } }] : []), jobBar.shut("book", "Close"),
    ]);
  }

  /** When the first step is on the screen and the browser has nothing better to do. @returns {Promise<void>} */
  function later() {
    return new Promise((done) => {
      if (window.requestIdleCallback) window.requestIdleCallback(() => done(), { timeout: 2000 });
      else window.setTimeout(done, 300);
    });
  }

  /** Bring what the book says of a step in full. @param {JobRow} row @returns {Promise<boolean>} whether something has come */
  async function bringParts(row) {
    const ids = [row.id, ...row.also].map((id) => seambook.jobRows.runOf(id).procedure).filter(seambook.jobLibrary.isOfBook);
    if (ids.every((id) => seambook.bayParts?.[id])) return false;
    await bayDrawing.bring(ids.map((id) => `assets/bay/${id}.js`)).catch(() => undefined);
    return ids.some((id) => seambook.bayParts?.[id]);
  }

  /** A procedure alone from its beginning; what was done of it stays among the jobs. @param {any} job */
  function afresh(job) {
    const [run] = job.runs;
    const one = seambook.jobBook.procedures.find((/** @type {any} */ procedure) => procedure.id === run.procedure);
    if (!one) return;
    turn += 1;
    folder.keep(`#procedure=${run.procedure}${run.side ? `&side=${run.side}` : ""}`);
    void show(bayOpen.fresh(one, { procedure: run.procedure, side: run.side }), 0, [], turn);
    jobBar.say("Begun afresh. What was done before stands among the jobs.");
  }

  function askForFile() {
    jobBar.tell("copy", "Save the file now", ["What this copy of the book keeps may be gone when it is shut. The file holds all that was done so far."], [
      { label: "Save the file", take: () => {
        bayDesk.kept()?.saveFile();
        jobBar.clear("copy");
      } }, jobBar.shut("copy", "Not now"),
    ]);
  }

  function isCart() {
    return bay.dataset.size === "cart";
  }

  /** @param {boolean} is @returns {boolean} */
  function setCart(is) {
    if (is) bay.dataset.size = "cart";
    else delete bay.dataset.size;
    try {
      if (is) window.localStorage.setItem(cartKey, "yes");
      else window.localStorage.removeItem(cartKey);
    } catch {
      /* Without storage the size lasts as long as the page. */
    }
    return is;
  }

  function wasCart() {
    try {
      return window.localStorage.getItem(cartKey) === "yes";
    } catch {
      return false;
    }
  }

  /** Dark on white, whatever the device's own setting, until somebody chooses: most bays are bright. */
  function whiteByDefault() {
    const root = document.documentElement;
    if (!root.dataset.theme) root.dataset.theme = "day";
    document.getElementById("page_theme")?.setAttribute("aria-pressed", String(root.dataset.theme === "night"));
  }

  async function start() {
    whiteByDefault();
    setCart(wasCart());
    frame = bayDesk.frameIn(bay);
    store = await jobStore.open(seambook.jobBook.book.id, (/** @type {any} */ told) => void bayDesk.kept()?.heard(told));
    if (store.why) {
      jobBar.tell("store", "This browser keeps no jobs", [`It refuses to store anything for this page (${store.why}). Save the file from the menu before you close it.`], [jobBar.shut("store", "Close")]);
    }
    window.addEventListener("hashchange", () => void route());
    window.addEventListener("pagehide", () => bayDesk.kept()?.hurry());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") bayDesk.kept()?.hurry();
      else bayDesk.draw();
    });
    window.addEventListener("beforeunload", (event) => {
      if (bayDesk.kept()?.isUnsaved() && bayDesk.kept()?.dirty) event.preventDefault();
    });
    window.setInterval(() => bayDesk.draw(), 15000); // a wait that is over is told
    await route();
  }

  void start();
})();
