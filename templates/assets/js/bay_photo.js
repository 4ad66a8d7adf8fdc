/* Photographs and the note of a step. Where the step asks for one, it is taken, or somebody says why not. Needs job_photos.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;

  /** @param {any} bay @param {string} say @param {string} [data] */
  function keep(bay, say, data) {
    const one = { at: words.stamp(Date.now()), by: entries.name() || null, say: say || null, ...(data ? { data } : {}) };
    bay.change((/** @type {any} */ job) => {
      job.photos = { ...job.photos, [bay.row.id]: [...(job.photos?.[bay.row.id] || []), one] };
    });
    bay.say(data ? "The photograph is kept with the step." : "The reason is kept with the step.");
  }

  /** @param {any} photo */
  function shown(photo) {
    return photo.data ? seambook.jobPhotos.shown(photo) : el("p", { class: "note", text: [photo.say, photo.by].filter(Boolean).join(", ") });
  }

  /** What the step wants to have seen, or nothing. @param {any} bay */
  function wanted(bay) {
    const { row, state } = bay;
    if (!row.step.photo) return null;
    const kept = seambook.jobKept.all(state.job.photos, row);
    const taker = seambook.jobPhotos.taker("bay_photo", kept.length ? "Another photograph" : "Take the photograph", (/** @type {string} */ data) => keep(bay, row.step.photo, data), state);
    const why = () => {
      const text = entries.valueOf("bay_unseen");
      if (!text) return entries.fault("bay_unseen", "Say why.");
      return keep(bay, `No photograph, because ${text}`);
    };
    return el("section", { class: "photo bay-photo", "aria-label": "Photograph" },
      el("p", {}, el("span", { class: "label", text: "Photograph" }), ` ${row.step.photo}`), ...kept.map(shown), taker,
      kept.length ? null : el("details", { class: "bay-fold", id: "bay_unseen_fold" }, el("summary", { text: "No photograph, because\u2026" }),
        entries.field({ id: "bay_unseen", label: "Why there is none", most: 1000 }), el("button", { type: "button", class: "control", id: "bay_unseen_take", text: "Put this down", on: { click: why } })));
  }

  /** The note of the step, and photographs that nobody asked for. @param {any} bay */
  function note(bay) {
    const { row, state } = bay;
    const key = seambook.jobKept.keyOf(state.job.notes_by_step, row);
    const value = state.job.notes_by_step?.[key] || "";
    const edit = (/** @type {any} */ job, /** @type {string} */ text) => {
      job.notes_by_step = job.notes_by_step || {};
      if (text.trim()) job.notes_by_step[key] = text.trim();
      else delete job.notes_by_step[key];
    };
    const kept = row.step.photo ? [] : seambook.jobKept.all(state.job.photos, row);
    return el("section", { class: "bay-note" }, entries.field({ id: "bay_note", label: "Note", value, edit, rows: value ? 3 : 2 }),
      ...kept.map(shown), row.step.photo ? null : seambook.jobPhotos.taker("bay_photo", "Add a photograph", (/** @type {string} */ data) => keep(bay, "", data), state));
  }

  seambook.bayPhoto = { wanted, note };
})();
