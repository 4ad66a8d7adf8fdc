/**
 * The page of jobs, started last: opens the store, goes by the address, and shows the list or a job. Needs all the rest.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { folder, jobBar, jobDesk, jobFile, jobKeep, jobList, jobLibrary, jobStore } = seambook;
  const place = document.getElementById("job_desk");
  if (!place || !seambook.jobBook) return;
  const desk = place;
  const examples = document.getElementById("job_examples");
  /** @type {any} */
  let store = null;
  /** The job that is open. @type {any} */
  let kept = null;
  let view = "make";
  /** Jobs that were left before they were saved, by id: what the store lacks is kept in this page. @type {Map<string, any>} */
  const left = new Map();
  /** What is to be said when the list is shown. */
  let onList = "";
  /** Counts the ways gone: what comes late is dropped. */
  let turn = 0;

  /** @param {string} id @param {string} [to] */
  function go(id, to = "make") {
    const address = jobDesk.address(id, to);
    if (window.location.hash === address) void route();
    else folder.move(address);
  }

  /** @param {string} said why */
  function toList(said) {
    onList = said;
    folder.move("#list");
  }

  const page = {
    draw: (/** @type {any} */ one, /** @type {boolean} */ isTyping) => {
      if (one === kept) jobDesk.show(desk, one, view, isTyping);
    },
    go: (/** @type {string} */ id) => {
      kept = null;
      go(id, view);
    },
    gone: () => {
      kept = null;
      folder.move("#list");
    },
  };

  /** Show what the address asks for. */
  async function route() {
    const mine = (turn += 1);
    const asked = jobDesk.asked(window.location.hash);
    if (asked.example) {
      await openExample(asked.example);
      return;
    }
    if (!asked.job) {
      if (kept && !["", "#list"].includes(window.location.hash)) return; // a way to a part of this page
      leave();
      jobBar.say(onList);
      onList = "";
      await showList();
      return;
    }
    const isNew = !kept || kept.state.job.id !== asked.job;
    if (isNew) leave();
    view = jobDesk.views().includes(asked.view) ? asked.view : jobDesk.views()[0];
    if (isNew) {
      const found = unsaved(asked.job) || await opened(asked.job);
      if (mine !== turn) return;
      if (!found) return;
      left.delete(asked.job);
      kept = found;
      if (kept.stopped) kept.again();
    }
    leaveList();
    const refreshed = kept.refresh();
    // It is drawn already: the focus must not wait for what is saved, and take itself from whoever types by then.
    if (isNew) document.getElementById("job_called")?.focus({ preventScroll: true });
    await refreshed;
    if (!isNew) {
      // The way here may have gone with the view that it stood in.
      if (document.activeElement === document.body) document.getElementById(`job_view-${view}`)?.focus({ preventScroll: true });
      window.scrollTo(0, Math.min(window.scrollY, desk.offsetTop));
    }
  }

  /** Go from the job that is open; what is not saved of it is not forgotten. */
  function leave() {
    if (kept && kept.isPending()) left.set(kept.state.job.id, kept);
    kept = null;
    for (const [id, one] of left) if (!one.isPending()) left.delete(id);
  }

  /** A job as this page has it, where that is more than the store has. @param {string} id */
  function unsaved(id) {
    const found = left.get(id);
    return found && found.isPending() ? found : null;
  }

  function leaveList() {
    examples?.setAttribute("hidden", "");
    document.body.classList.add("job-open");
  }

  async function showList() {
    examples?.removeAttribute("hidden");
    document.body.classList.remove("job-open");
    if (!left.size) for (const name of ["conflict", "full", "form"]) jobBar.clear(name);
    await jobList.show(desk, store, acts);
  }

  /** @param {string} id @returns {Promise<any>} */
  async function opened(id) {
    const found = await store.load(id);
    const read = found && jobFile.read(found.text, seambook.jobBook, id);
    if (!found || read.fault) {
      toList(found ? "This job cannot be read; its text stands in the list." : "There is no such job in this browser.");
      return null;
    }
    tellOf(read.told);
    return jobKeep.open(store, read.job, found.revision, page);
  }

  /** @param {Array<{sort: string, say: string}>} told */
  function tellOf(told) {
    if (told.length) jobBar.tell("file", "About this file", told.map(({ say }) => say), [jobBar.shut("file", "Close")]);
  }

  /** Keep a job that is new to this browser, and open it; it is shown before anything is saved. @param {any} job @param {string} to */
  async function keep(job, to) {
    leave();
    kept = jobKeep.open(store, job, 0, page);
    kept.dirty = true;
    view = jobDesk.views().includes(to) ? to : jobDesk.views()[0];
    leaveList();
    folder.keep(jobDesk.address(job.id, view));
    const refreshed = kept.refresh();
    document.getElementById("job_called")?.focus({ preventScroll: true });
    await refreshed;
  }

  /** @param {string} id */
  async function openExample(id) {
    const file = await jobLibrary.example(id);
    const read = file && jobFile.read(JSON.stringify(file), seambook.jobBook);
    if (!read || read.fault) {
      toList(read ? read.fault : "This book has no such example.");
      return;
    }
    const first = seambook.jobViews.plan ? "plan" : "make";
    if (await store.load(read.job.id)) {
      folder.keep(jobDesk.address(read.job.id, first));
      await route();
      jobBar.say("You have opened this example before: here it is as you left it. Delete it in the list to begin it afresh.");
    } else await keep(read.job, first);
  }

  /** Today's or tomorrow's opening, whichever comes next. */
  function nextStart() {
    const { opens, days } = jobFile.hoursOf(seambook.jobBook);
    const at = new Date();
    const [hour, minute] = opens.split(":").map(Number);
    if (jobKeep.now(at).slice(11) > opens) at.setDate(at.getDate() + 1);
    for (let tries = 0; tries < 7 && !days.includes(at.getDay() || 7); tries += 1) at.setDate(at.getDate() + 1);
    at.setHours(hour, minute, 0, 0);
    return jobKeep.now(at);
  }

  const acts = {
    begin: async () => {
      const job = jobFile.fresh(seambook.jobBook, { id: jobKeep.newId(), now: jobKeep.now(), start: nextStart() });
      const keeping = keep(job, "make");
      document.getElementById("job_number")?.focus(); // and not once it is saved, when another field may have it
      await keeping;
      void window.navigator.storage?.persist?.();
    },
    open: async (/** @type {File} */ file) => {
      const read = jobFile.read(await file.text(), seambook.jobBook, jobKeep.newId());
      if (read.fault) {
        jobBar.tell("open", `“${file.name}” was not opened`, [read.fault], [jobBar.shut("open", "Close")]);
        return;
      }
      jobBar.clear("open");
      tellOf(read.told);
      const before = await store.load(read.job.id);
      if (!before) await keep(read.job, "make");
      else same(read.job, before);
    },
    save: async (/** @type {string} */ id) => {
      const read = await job(id);
      if (read) jobKeep.hand(jobFile.nameOf(read), jobFile.write(read, seambook.jobBook));
    },
    duplicate: async (/** @type {string} */ id) => {
      const read = await job(id);
      if (!read) return;
      const copy = jobFile.copyOf(read, jobKeep.newId(), `${read.number} copy`.trim());
      const found = await store.load(id);
      const came = await store.save({ id: copy.id, text: jobFile.write(copy, seambook.jobBook), brief: { ...found.brief, number: copy.number } }, 0);
      jobBar.say(came.ok ? `Copied as ${jobDesk.called(copy)}.` : "The browser did not keep the copy: its store is full, or refused.");
      await showList();
      document.getElementById(`job_open-${copy.id}`)?.focus();
    },
    remove: async (/** @type {string} */ id) => {
      left.get(id)?.drop();
      left.delete(id);
      await store.remove(id);
      jobBar.say("Deleted.");
      await showList();
      document.getElementById("job_called")?.focus();
    },
  };

  /** A file of a job that this browser has already. @param {any} job @param {any} before */
  function same(job, before) {
    jobBar.tell("same", "This browser has this job already", ["The file and what is kept here may differ. Nothing is written over unless you say so."], [
      { label: "Open the file as a copy", take: () => {
        jobBar.clear("same");
        void keep(jobFile.copyOf(job, jobKeep.newId(), `${job.number} copy`.trim()), "make");
      } },
      { label: "Open what is kept here", take: () => {
        jobBar.clear("same");
        go(job.id);
      } },
      { label: "Put both together", take: () => void together(job, before) },
      { label: "Put the file in its place", take: async () => {
        jobBar.clear("same");
        const read = jobFile.read(before.text, seambook.jobBook);
        const came = await store.save({ id: job.id, text: jobFile.write(job, seambook.jobBook), brief: jobKeep.briefOf(job, null) }, before.revision);
        if (!came.ok) jobBar.say("It was not put there: the store is full, or another tab has just changed it.");
        else jobKeep.hand(`before-${jobFile.nameOf(read.fault ? job : read.job)}`, before.text);
        kept = null;
        go(job.id);
      } },
    ]);
  }

  /** The file and what is kept here as one job; of a value that both have the newer stays. @param {any} job @param {any} before */
  async function together(job, before) {
    const read = jobFile.read(before.text, seambook.jobBook, before.id);
    if (read.fault) {
      jobBar.say("What is kept here cannot be read, so nothing can be put together with it. Open the file as a copy.");
      return;
    }
    jobBar.clear("same");
    const joined = seambook.jobJoin.join(null, read.job, job);
    const whole = Object.assign(jobFile.copyOf(job, job.id), joined.job);
    const came = await store.save({ id: job.id, text: jobFile.write(whole, seambook.jobBook), brief: jobKeep.briefOf(whole, null) }, before.revision);
    kept = null;
    go(job.id);
    const said = joined.clashes.length ? ` Of ${joined.clashes.length} values that differed the newer was taken.` : "";
    jobBar.say(came.ok ? `Both were put together.${said}` : "They were not put together: the store is full, or another tab has just changed the job.");
  }

  /** @param {string} id @returns {Promise<any>} */
  async function job(id) {
    const found = await store.load(id);
    const read = found && jobFile.read(found.text, seambook.jobBook, id);
    return read && !read.fault ? read.job : null;
  }

  /** @param {{id: string, revision: number}} told */
  function heard(told) {
    if (kept) void kept.heard(told);
    else if (!jobDesk.asked(window.location.hash).job) void showList();
  }

  /** What a closed tab had typed last, and what met another tab's words since: each becomes a job of its own. */
  async function keepBehind() {
    for (const one of store.behind()) {
      const read = jobFile.read(one.text, seambook.jobBook, one.id);
      if (read.fault) continue;
      const copy = jobFile.copyOf(read.job, seambook.jobKeep.newId(), `${read.job.number} copy`.trim());
      const brief = { ...one.brief, number: copy.number };
      const came = await store.save({ id: copy.id, text: jobFile.write(copy, seambook.jobBook), brief }, 0);
      if (!came.ok) continue;
      store.forget(one.id);
      jobBar.tell("behind", "A job was closed before it was saved", [
        `Another tab has changed it since. What was typed last is kept as “${copy.number}”.`,
      ], [jobBar.shut("behind", "Close")]);
    }
  }

  async function start() {
    desk.before(jobBar.notices, jobBar.line);
    examples?.querySelectorAll("a").forEach((way) => {
      const id = /([a-z0-9-]+)\.html$/.exec(way.getAttribute("href") || "");
      if (id) way.setAttribute("href", `#example=${id[1]}`);
    });
    desk.hidden = false;
    document.getElementById("job_without")?.setAttribute("hidden", "");
    store = await jobStore.open(seambook.jobBook.book.id, heard);
    if (store.why) {
      jobBar.tell("store", "This browser keeps no jobs", [
        `It refuses to store anything for this page (${store.why}); a private window does so. You can plan as usual, and everything is lost when you close the page.`,
        "Save the file of each job before you close it, and open the file the next time.",
      ], [jobBar.shut("store", "Close")]);
    }
    await keepBehind();
    window.addEventListener("hashchange", () => void route());
    window.addEventListener("pagehide", () => kept?.hurry());
    window.addEventListener("beforeunload", (event) => {
      if ([kept, ...left.values()].some((one) => one && one.isUnsaved())) event.preventDefault();
    });
    await route();
  }

  void start();
})();
