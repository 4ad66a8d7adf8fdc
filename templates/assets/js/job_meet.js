/**
 * A job that another tab has saved while it was changed here: what touches different things is put together, and where both changed
 * the same thing, the reader chooses. Nothing is lost either way. Needs job_join.js, job_file.js and job_bar.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { jobFile, jobBar, jobJoin } = seambook;

  /** @param {any} kept the job that is open @param {any} other what stands in the store now; null if it was deleted */
  function meet(kept, other) {
    const joined = joinedWith(kept, other);
    if (joined && !joined.clashes.length) together(kept, other, joined.job);
    else ask(kept, other, joined);
  }

  /** @param {any} kept @param {any} other @returns {any} nothing where there is nothing to join */
  function joinedWith(kept, other) {
    const { book, job } = kept.state;
    if (!other) return null;
    const theirs = jobFile.read(other.text, book, other.id);
    const base = kept.base ? jobFile.read(kept.base, book, other.id) : null;
    return theirs.fault ? null : jobJoin.join(base && base.job, job, theirs.job);
  }

  /** @param {any} kept @param {any} other @param {any} joined */
  function together(kept, other, joined) {
    jobBar.clear("conflict");
    const { book } = kept.state;
    const whole = Object.assign(jobFile.copyOf(kept.state.job, other.id), joined);
    const read = jobFile.read(jobFile.write(whole, book), book, other.id);
    if (read.fault) {
      ask(kept, other);
      return;
    }
    kept.state.job = read.job;
    Object.assign(kept, { revision: other.revision, base: other.text, dirty: true, stopped: false });
    void kept.refresh();
    jobBar.tell("together", "Two have changed this job", ["Another tab had changed it as well: both were put together, and nothing is lost."], [jobBar.shut("together", "Close")]);
  }

  /** @param {any} kept @param {any} other @param {any} [joined] */
  function ask(kept, other, joined) {
    const takeOther = () => {
      jobBar.clear("conflict");
      if (other) kept.takeOver(other, "The other one was taken.");
      else kept.page.gone();
    };
    jobBar.tell("conflict", "Two have changed this job", [
      `Another tab or window has ${other ? "saved" : "deleted"} this job while you were changing it here. Nothing is lost: choose.`,
    ], [
      { label: "Keep mine as a copy", take: () => void keepCopy(kept) },
      { label: other ? "Take the other" : "Let it go", take: takeOther },
      ...(joined ? [{ label: "Put both together", take: () => together(kept, other, joined.job) }] : []),
    ]);
  }

  /** @param {any} kept */
  async function keepCopy(kept) {
    const { job, book } = kept.state;
    const copy = jobFile.copyOf(job, seambook.jobKeep.newId(), `${job.number} copy`.trim());
    const given = { ...kept.kept(), id: copy.id, text: jobFile.write(copy, book) };
    const came = await kept.store.save({ ...given, brief: { ...given.brief, number: copy.number } }, 0);
    if (!came.ok) {
      kept.unsaved(came);
      return;
    }
    jobBar.clear("conflict");
    kept.dirty = false;
    kept.page.go(copy.id);
    jobBar.say("Yours was kept as a copy.");
  }

  seambook.jobMeet = { meet, ask };
})();
