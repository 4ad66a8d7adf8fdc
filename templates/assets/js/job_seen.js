/**
 * In a job: marks a step that was changed since this device last followed its procedure. A step that is done was seen, and
 * with its procedure's last step the procedure was followed. Needs seen.js, seen_mark.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { seen } = seambook;

  /** The steps that a row stands for: of each its procedure as the book has it, and its key. @param {{id: string, also?: string[]}} row */
  function stepsOf(row) {
    return [row.id, ...(row.also || [])].flatMap((id) => {
      const [run, key] = id.split("#");
      const [name] = run.split("@");
      const procedure = seambook.jobProcedures?.[name];
      return procedure?.revision ? [{ name, key, procedure, revision: { number: procedure.revision.number, changed: procedure.revision.changed || [] } }] : [];
    });
  }

  /** Put the marks of a step at the head of an element, in place of those that stand there. @param {Element} element @param {any} state @param {any} row */
  function mark(element, state, row) {
    element.querySelectorAll(":scope > .changed").forEach((one) => one.remove());
    const marks = stepsOf(row).flatMap(({ name, key, procedure, revision }) => {
      const changes = seen.news(seen.read(name), revision.changed).get(key);
      const id = `changed_${element.id || "step"}_${name}_${key}`;
      const press = () => {
        seen.seen(name, key, revision);
        mark(element, state, row);
        if (element instanceof HTMLElement && element.tabIndex >= 0) element.focus({ preventScroll: true });
      };
      return changes ? [seambook.seenMark.made(id, changes, procedure.title, press)] : [];
    });
    element.prepend(...marks);
  }

  /** A step was done on this device. @param {any} row */
  function done(row) {
    for (const { name, key, procedure, revision } of stepsOf(row)) {
      seen.seen(name, key, revision);
      if (procedure.steps[procedure.steps.length - 1]?.key === key) seen.followed(name, revision.number);
    }
  }

  /** A job was planned with a revision of its procedures. Where this device followed none of them to its end, it knows that one:
   * who comes back to a job half done is shown what was changed meanwhile. @param {any} job */
  function planned(job) {
    for (const { procedure, revision } of job.runs) {
      const now = seambook.jobProcedures?.[procedure]?.revision;
      if (now && revision < now.number && !seen.read(procedure)) seen.followed(procedure, revision);
    }
  }

  seambook.jobSeen = { mark, done, planned };
})();
