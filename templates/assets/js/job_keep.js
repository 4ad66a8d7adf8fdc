/**
 * The job that is open: changed by one function, saved by itself, planned anew, and shown again. What another tab wrote
 * meanwhile is never written over: both are put together where they touch different things, and else the reader chooses. Needs the store, the file and the bar.
 */
(function () {
  "use strict";

  /** @typedef {any} State what every view is given */

  const PAUSE = 250;
  const SETTLED = 900;
  const LATER = 1500;
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
    const isDone = planned && planned.rows ? planned.rows.map((/** @type {any} */ row) => !!row.done) : job.order.map((/** @type {string} */ id) => id in job.done);
    return {
      number: job.number, title: job.title, car: job.car, runs: job.runs.length, changed: job.changed,
      finish: planned && Number.isFinite(planned.finish) ? planned.finish : null,
      alone: job.alone && job.runs.length ? seambook.jobKept.runName(job.runs[0]) : "",
      steps: isDone.length, done: isDone.filter(Boolean).length,
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

  /** The plan of a job; procedures that the book has no longer are left out of it. @param {any} job @param {any} before @param {boolean} quick */
  function plan(job, before, quick) {
    if (!seambook.jobPlan) return null;
    const known = job.runs.filter((/** @type {any} */ run) => seambook.jobProcedures[run.procedure]);
    try {
      return seambook.jobPlan.plan({ ...job, runs: known }, jobLibrary.library(), before, { quick });
    } catch (error) {
      return { ok: false, problems: [{ say: `This job could not be planned: ${error}`, steps: [] }], rows: [], order: [], critical: [], advice: [] };
    }
  }

  /** A job that is being worked on. `page` shows it, goes to another, and leaves when it is gone. */
  class OpenJob {
    /**
     * @param {any} store @param {any} job @param {number} revision 0 for one that was never kept
     * @param {{draw: (kept: any, isTyping: boolean) => void, go: (id: string) => void, gone: () => void,
     *   plan?: (job: any, before: any, quick: boolean) => any}} page one that shows jobs in another way may plan them so
     */
    constructor(store, job, revision, page) {
      const book = seambook.jobBook;
      const change = (/** @type {any} */ edit, /** @type {any} */ how) => this.change(edit, how);
      this.store = store;
      this.page = page;
      this.revision = revision;
      this.dirty = false;
      this.saving = false;
      /** Whether saving waits for the reader's choice. */
      this.stopped = false;
      /** Whether the file was handed out since the last change. */
      this.handed = false;
      this.timer = 0;
      /** Grows with every change and every plan: what was made of the job before is as good as new while it stays. */
      this.version = 0;
      this.brief = "";
      /** What the store had last, as this page knows it: where two tabs changed a job, both came from here. */
      this.base = revision ? jobFile.write(job, book) : "";
      this.writing = "";
      /** @type {State} */
      this.state = { job, book, library: jobLibrary.library(), planned: null, change, say: jobBar.say, today: Date.now(), compared: null };
    }

    /**
     * Change the job. @param {(job: any) => void} edit
     * @param {{redraw?: boolean, isLater?: boolean}} [how] while a field is typed in, it is not drawn anew; what goes by the order
     *   that there is, is planned anew later
     */
    change(edit, how = {}) {
      edit(this.state.job);
      this.version += 1;
      this.state.job.changed = now();
      this.dirty = true;
      this.handed = false;
      window.clearTimeout(this.timer);
      if (how.isLater) this.planLater(how.redraw !== false);
      else if (how.redraw === false) {
        this.timer = window.setTimeout(() => void this.refresh(true), PAUSE);
        void this.save();
      } else void this.refresh();
    }

    /** Show at once by the plan that there is, and plan when nobody has touched anything for a while. @param {boolean} isDrawn */
    planLater(isDrawn) {
      const { job, planned } = this.state;
      const ticks = planned && planned.merged ? seambook.jobKept.ticks(job, planned.merged.nodes) : new Map();
      for (const row of (planned && planned.rows) || []) row.done = ticks.has(row.id);
      if (isDrawn) this.page.draw(this, false);
      window.requestAnimationFrame(() => window.setTimeout(() => void this.save(), 0)); // what was touched answers first
      this.timer = window.setTimeout(() => {
        this.replan(true);
        this.page.draw(this, true);
        void this.keepBrief();
      }, LATER);
    }

    /** Load what is missing, plan anew, show and save. @param {boolean} [isTyping] */
    async refresh(isTyping = false) {
      window.clearTimeout(this.timer);
      const ids = this.state.job.runs.map((/** @type {any} */ run) => run.procedure);
      if (ids.some((/** @type {string} */ id) => jobLibrary.isOfBook(id) && !seambook.jobProcedures[id])) {
        this.page.draw(this, isTyping); // at once, with what is known; the times follow
        tellMissing(await jobLibrary.procedures(ids));
      }
      this.replan(isTyping);
      this.page.draw(this, isTyping);
      if (isTyping) this.timer = window.setTimeout(() => this.settle(), SETTLED);
      await this.keepBrief();
    }

    /** Once nobody types, plan with all passes; what is typed in stays as it is. */
    settle() {
      this.replan(false);
      this.page.draw(this, true);
      void this.keepBrief();
    }

    /** Save, where what the list shows of the job has changed, too. */
    async keepBrief() {
      const brief = JSON.stringify(briefOf(this.state.job, this.state.planned));
      if (this.revision && this.brief && brief !== this.brief) this.dirty = true;
      this.brief = brief;
      await this.save();
    }

    /** @param {boolean} isTyping a quick plan, in the order of the one before */
    replan(isTyping) {
      const { state } = this;
      this.version += 1;
      state.today = Date.now();
      state.compared = jobFile.compare(state.job, state.book, seambook.jobProcedures);
      seambook.jobSeen?.planned(state.job);
      state.planned = (this.page.plan || plan)(state.job, state.planned, isTyping);
      if (state.planned && state.planned.order && state.planned.order.length) state.job.order = [...state.planned.order];
    }

    /** What the store is given. */
    kept() {
      const { job, book, planned } = this.state;
      return { id: job.id, text: jobFile.write(job, book), brief: briefOf(job, planned) };
    }

    async save() {
      if (this.saving || this.stopped || !this.dirty) return;
      this.saving = true;
      while (this.dirty && !this.stopped) {
        if (this.isWrong()) break;
        this.dirty = false;
        const given = this.kept();
        this.writing = given.text;
        this.take(await this.store.save(given, this.revision));
      }
      this.saving = false;
    }

    /** The page is left, perhaps while a change is being written: what there is goes to the store behind it. */
    hurry() {
      if ((!this.dirty && !this.saving) || this.stopped || this.isWrong()) return;
      const { revision, saving } = this;
      this.store.leave({ ...this.kept(), revision, before: saving ? this.writing : "", until: revision + (saving && this.dirty ? 2 : 1) });
      if (!this.saving) void this.save();
      if (!this.dirty) return;
      this.dirty = false;
      void this.store.save(this.kept(), this.revision + 1).then((/** @type {any} */ came) => this.take(came));
    }

    /** What could not be read again is not written: the last that could be stays in the store until it is put right. */
    isWrong() {
      const wrong = jobFile.unreadable(this.state.job, this.state.book);
      if (!wrong) jobBar.clear("form");
      else {
        jobBar.tell("form", "This job is not saved", [
          `At “${wrong.place}” ${wrong.say}. Put it right: everything else stands in this page until you close it, and is saved then.`,
        ]);
      }
      return !!wrong;
    }

    /** @param {any} came of saving */
    take(came) {
      if (came.ok) {
        this.revision = came.revision;
        this.base = this.writing || this.base;
        jobBar.clear("full");
        if (!this.dirty) jobBar.say(this.store.why ? "Held in this page only." : "Saved.");
        return;
      }
      this.dirty = true;
      this.stopped = true;
      if ("conflict" in came) seambook.jobMeet.meet(this, came.conflict);
      else this.unsaved(came);
    }

    /** @param {any} came */
    unsaved(came) {
      const why = came.full ? "The store of this browser is full." : `The browser did not keep it: ${came.refused}.`;
      jobBar.tell("full", "This job is not saved", [
        `${why} It stands in this page until you close it. Save the file now; then delete jobs or photographs that are no longer needed, and try again.`,
      ], [
        { label: "Save the file", take: () => this.saveFile() },
        { label: "Try again", take: () => this.again() },
      ]);
    }

    again() {
      this.stopped = false;
      void this.save();
    }

    saveFile() {
      hand(jobFile.nameOf(this.state.job), jobFile.write(this.state.job, this.state.book));
      this.handed = true;
      jobBar.say("The file was handed to the browser: look among its downloads.");
    }

    /** @param {any} other @param {string} said */
    takeOver(other, said) {
      const read = jobFile.read(other.text, this.state.book, other.id);
      if (read.fault) {
        this.page.go(other.id);
        return;
      }
      this.state.job = read.job;
      this.revision = other.revision;
      this.base = other.text;
      this.dirty = false;
      this.stopped = false;
      void this.refresh();
      jobBar.say(said);
    }

    /** Another tab has told of a change. @param {{id: string, revision: number}} told */
    async heard({ id, revision }) {
      if (id !== this.state.job.id || revision === this.revision) return;
      const other = await this.store.load(id);
      if (!this.dirty && !this.saving && other && other.revision > this.revision) {
        this.takeOver(other, "Taken over from the other tab.");
      } else if (!other && !this.stopped) {
        this.stopped = true;
        this.dirty = true;
        seambook.jobMeet.ask(this, null);
      }
    }

    /** Whether the store lacks something of this job. */
    isPending() {
      return this.dirty || this.saving;
    }

    /** Save no more: the job was deleted. */
    drop() {
      window.clearTimeout(this.timer);
      this.dirty = false;
      this.stopped = true;
    }

    /** Whether closing the page would lose something. */
    isUnsaved() {
      return !this.handed && (this.dirty || (!!this.store.why && this.state.job.runs.length > 0));
    }
  }

  /** @param {string[]} ids */
  function tellMissing(ids) {
    if (!ids.length) return;
    jobBar.tell("library", "Part of the book is missing", [
      `Not found beside this page: ${ids.join(", ")}. Copy the whole folder of the book.`,
    ], [jobBar.shut("library", "Close")]);
  }

  /** Open a job to be worked on. @param {any} store @param {any} job @param {number} revision @param {any} page */
  function open(store, job, revision, page) {
    return new OpenJob(store, job, revision, page);
  }

  seambook.jobKeep = { open, newId, now, briefOf, hand, plan };
})();
