/* What stops the work until somebody answers for it: hold points, and readings that are out of tolerance. Needs bay_names.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;
  const ticks = seambook.jobTicks;

  /** Take what stands in the form; false where something is missing, which is told at its field.
   * @param {any} bay @param {string} key a step's name or a reading's @param {string} at @param {string} seen what was released on, where nobody wrote it */
  function take(bay, key, at, seen) {
    const [who, why] = [`${at}-by`, `${at}-why`];
    const [by, text] = [entries.valueOf(who), entries.valueOf(why)];
    if (!by) return entries.fault(who, "Say who releases it.");
    if (!text && !seen) return entries.fault(why, "Say why it may stay.");
    const said = { by, at: words.stamp(Date.now()), reason: text || seen };
    bay.change((/** @type {any} */ job) => ticks.release(job, key, said));
    bay.say(`Released by ${by}.`);
    if (document.body.dataset.copy === "pocket") bay.askForFile();
    return true;
  }

  /** @param {any} bay @param {string} at @param {string} label */
  function fields(bay, at, label) {
    return [seambook.bayNames.field(`${at}-by`, "Released by", bay.state.job), entries.field({ id: `${at}-why`, label, most: 1000 })];
  }

  /** A point of a step, and its release. @param {any} bay @param {JobRow} row */
  function point(bay, row) {
    const { hold } = row.step;
    if (!hold) return null;
    const release = seambook.jobKept.of(bay.state.job.releases, row);
    const isHeld = ticks.isHold(row.step) && row.done && !release;
    const below = release ? el("p", { class: "released" }, el("strong", { text: `Released ${words.said(release.at)} by ${release.by}${release.reason ? `: ${release.reason}` : ""}` }))
      : isHeld ? fields(bay, "bay_release", "What it was released on, if it is more than this")
        : ticks.isHold(row.step) ? el("p", { class: "note", text: "When the step is done, the work stops here until this is released." }) : null;
    return el("section", { class: "hold", "aria-label": `${hold.sort} point` }, el("div", { class: "hold-sheet" },
      el("p", { class: "hold-word" }, el("strong", { text: hold.sort }), hold.releases ? el("span", { text: `Released by: ${hold.releases}` }) : null),
      hold.proof ? el("p", { text: hold.proof }) : null, below));
  }

  /** Release a step's point from what stands in its form. @param {any} bay @param {JobRow} row */
  function takePoint(bay, row) {
    const { proof, sort } = row.step.hold;
    return take(bay, row.id, "bay_release", proof ? `Seen: ${proof}` : `${sort} point seen`);
  }

  /** The release of a reading that is out. @param {any} bay @param {string} key @param {number} n */
  function reading(bay, key, n) {
    const at = `bay_out-${n}`;
    return el("div", { class: "bay-out" }, el("p", { text: "It holds the whole job. Measure again, or let it stay with a name and a reason." }),
      ...fields(bay, at, "Why it may stay"),
      el("button", { type: "button", class: "control bay-wide bay-release", id: `${at}-take`, text: "Release this reading", on: { click: () => take(bay, key, at, "") } }));
  }

  seambook.bayRelease = { point, takePoint, reading };
})();
