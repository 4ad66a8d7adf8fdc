/**
 * The job that is open: changed by one function, saved by itself, planned anew, and shown again. What another tab wrote
 * meanwhile is never written over: the reader chooses. Needs the store, the file and the bar.
 */
(function () {
  "use strict";

  /** @typedef {any} State what every view is given: see `makeState` */

  const PAUSE = 250;
  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { jobFile, jobBar, jobLibrary } = seambook;

  /** A name for a job that no other has. @returns {string} */
  function newId() {
    const parts = window.crypto.getRandomValues(new Uint32Array(4));
    return `job-${Array.from(parts, (part) => part.toString(36)).join("")}`;
  }

  /** Now, by the shop's own clock, to the minute. @param {Date} [at] @returns {string} */
  function now(at = new Date()) {
    const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
    return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}T${two(at.getHours())}:${two(at.getMinutes())}`;
  }

  /** What the list shows of a job. @param {any} job @param {any} planned */
  function briefOf(job, planned) {
    const ids = planned && planned.rows ? planned.rows.map((/** @type {any} */ row) => row.id) : job.order;
    return {
      number: job.number, title: job.title, car: job.car, runs: job.runs.length, changed: job.changed,
      finish: planned && Number.isFinite(planned.finish) ? planned.finish : null,
      steps: ids.length, done: ids.filter((/** @type {string} */ id) => id in job.done).length,
    };
  }

  /** Give a file to the reader to keep. @param {string} name @param {string} text */
  function hand(name, text) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    link.download = name;
    document.body.append(link);
    link.click();
    link.remove();
    window.setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }

  /** The plan of a job; procedures that the book has no longer are left out of it. @param {any} job @param {any} before */
  function plan(job, before) {
    if (!seambook.jobPlan) return null;
    const known = job.runs.filter((/** @type {any} */ run) => seambook.jobProcedures[run.procedure]);
    try {
      return seambook.jobPlan.plan({ ...job, runs: known }, jobLibrary.library(), before);
    } catch (error) {
      return { ok: false, problems: [{ say: `This job could not be planned: ${error}`, steps: [] }], rows: [], order: [], critical: [], advice: [] };
    }
  }

  /**
   * Open a job to be worked on.
   * @param {any} store @param {any} job @param {number} revision 0 for one that was never kept
   * @param {{draw: (kept: any, isTyping: boolean) => void, go: (id: string) => void, gone: () => void}} page
   */
  function open(store, job, revision, page) {
    const book = seambook.jobBook;
    const kept = { state: makeState(job), dirty: false, saving: false, stopped: false, revision, timer: 0, brief: "", handed: false };

    /** @param {any} one @returns {State} */
    function makeState(one) {
      return { job: one, book, library: jobLibrary.library(), planned: null, change, say: jobBar.say, today: Date.now(), compared: null };
    }

    /** Change the job. @param {(job: any) => void} edit @param {{redraw?: boolean}} [how] a field that is typed in is not drawn anew */
    function change(edit, how = {}) {
      edit(kept.state.job);
      kept.state.job.changed = now();
      kept.dirty = true;
      kept.handed = false;
      window.clearTimeout(kept.timer);
      if (how.redraw === false) {
        kept.timer = window.setTimeout(() => void refresh(true), PAUSE);
        void save();
      } else void refresh();
    }

    /** Load what is missing, plan anew, show and save. @param {boolean} [isTyping] */
    async function refresh(isTyping = false) {
      window.clearTimeout(kept.timer);
      const { job: one } = kept.state;
      const missing = one.runs.some((/** @type {any} */ run) => jobLibrary.isOfBook(run.procedure) && !seambook.jobProcedures[run.procedure]);
      if (missing) {
        page.draw(kept, isTyping); // at once, with what is known; the times follow
        const failed = await jobLibrary.procedures(one.runs.map((/** @type {any} */ run) => run.procedure));
        if (failed.length) jobBar.tell("library", "Part of the book is missing", [`Not found beside this page: ${failed.join(", ")}. Copy the whole folder of the book.`], [jobBar.shut("library", "Close")]);
      }
      replan();
      page.draw(kept, isTyping);
      const brief = JSON.stringify(briefOf(one, kept.state.planned));
      if (kept.revision && kept.brief && brief !== kept.brief) kept.dirty = true;
      kept.brief = brief;
      await save();
    }

    function replan() {
      const { state } = kept;
      state.today = Date.now();
      state.compared = jobFile.compare(state.job, book, seambook.jobProcedures);
      state.planned = plan(state.job, state.planned);
      if (state.planned && state.planned.order && state.planned.order.length) state.job.order = [...state.planned.order];
    }

    async function save() {
      if (kept.saving || kept.stopped || !kept.dirty) return;
      kept.saving = true;
      while (kept.dirty && !kept.stopped) {
        kept.dirty = false;
        const { job: one, planned } = kept.state;
        const came = await store.save({ id: one.id, text: jobFile.write(one, book), brief: briefOf(one, planned) }, kept.revision);
        take(came);
      }
      kept.saving = false;
    }

    /** @param {any} came */
    function take(came) {
      if (came.ok) {
        kept.revision = came.revision;
        jobBar.clear("full");
        if (!kept.dirty) jobBar.say(store.why ? "Held in this page only." : "Saved.");
        return;
      }
      kept.dirty = true;
      kept.stopped = true;
      if ("conflict" in came) conflict(came.conflict);
      else unsaved(came);
    }

    /** @param {any} came */
    function unsaved(came) {
      const why = came.full ? "The store of this browser is full." : `The browser did not keep it: ${came.refused}.`;
      jobBar.tell("full", "This job is not saved", [
        `${why} It stands in this page until you close it. Save the file now; then delete jobs or photographs that are no longer needed, and try again.`,
      ], [
        { label: "Save the file", take: saveFile },
        { label: "Try again", take: again },
      ]);
    }

    function again() {
      kept.stopped = false;
      void save();
    }

    function saveFile() {
      hand(jobFile.nameOf(kept.state.job), jobFile.write(kept.state.job, book));
      kept.handed = true;
      jobBar.say("The file was handed to the browser: look among its downloads.");
    }

    /** @param {any} other what stands in the store now; null if it was deleted */
    function conflict(other) {
      const takeOther = () => {
        jobBar.clear("conflict");
        if (other) takeOver(other, "The other one was taken.");
        else page.gone();
      };
      jobBar.tell("conflict", "Two have changed this job", [
        other ? "Another tab or window has saved this job while you were changing it here. Nothing is lost: choose."
          : "Another tab or window has deleted this job while you were changing it here. Nothing is lost: choose.",
      ], [
        { label: "Keep mine as a copy", take: () => void keepCopy() },
        { label: other ? "Take the other" : "Let it go", take: takeOther },
      ]);
    }

    async function keepCopy() {
      const { job: one } = kept.state;
      const copy = jobFile.copyOf(one, newId(), `${one.number} copy`.trim());
      const came = await store.save({ id: copy.id, text: jobFile.write(copy, book), brief: briefOf(copy, kept.state.planned) }, 0);
      if (!came.ok) {
        unsaved(came);
        return;
      }
      jobBar.clear("conflict");
      kept.dirty = false;
      page.go(copy.id);
      jobBar.say("Yours was kept as a copy.");
    }

    /** @param {any} other @param {string} said */
    function takeOver(other, said) {
      const read = jobFile.read(other.text, book, other.id);
      if (read.fault) {
        page.go(other.id);
        return;
      }
      kept.state.job = read.job;
      [kept.revision, kept.dirty, kept.stopped] = [other.revision, false, false];
      void refresh();
      jobBar.say(said);
    }

    /** Another tab has told of a change. @param {{id: string, revision: number}} told */
    async function heard({ id, revision: told }) {
      if (id !== kept.state.job.id || told === kept.revision) return;
      const other = await store.load(id);
      if (!kept.dirty && !kept.saving && other && other.revision > kept.revision) takeOver(other, "Taken over from the other tab.");
      else if (!other && !kept.stopped) {
        kept.stopped = true;
        kept.dirty = true;
        conflict(null);
      }
    }

    return Object.assign(kept, { change, refresh, saveFile, heard, isUnsaved: () => !kept.handed && (kept.dirty || (!!store.why && kept.state.job.runs.length > 0)) });
  }

  seambook.jobKeep = { open, newId, now, briefOf, hand, plan };
})();
