/* Photographs in the views of a job: what is to be photographed, what was, and the button that takes one. Needs job_photo.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;

  /** A button that takes a photograph or a file. @param {string} id @param {string} label @param {(data: string) => void} take @param {any} state */
  function taker(id, label, take, state) {
    const input = el("input", { id, type: "file", accept: "image/*", class: "unseen" });
    input.addEventListener("change", () => {
      const file = input.files?.[0];
      if (file) seambook.jobPhoto.take(file).then(take, () => state.say?.(`${file.name} is not a picture that this browser can read.`));
    });
    return el("label", { class: "control job-file", for: id }, input, label);
  }

  /** Only what was made here is shown: never an address that leads elsewhere. @param {string} data */
  function isPicture(data) {
    return /^data:image\/(jpeg|png|webp);base64,[A-Za-z0-9+/=]+$/.test(data || "");
  }

  /** @param {any} photo */
  function shown(photo) {
    if (!isPicture(photo.data)) return null;
    const said = [photo.say, photo.by, words.said(photo.at || "")].filter(Boolean).join(", ");
    return el("figure", { class: "job-photo" }, el("img", { src: photo.data, alt: photo.say || "Photograph" }), el("figcaption", { class: "note", text: said }));
  }

  /** What is to be photographed at a step, and what was. @param {any} state @param {JobRow} row @param {string} at */
  function block(state, row, at) {
    const kept = seambook.jobKept.all(state.job.photos, row);
    const take = (/** @type {string} */ data) =>
      entries.change((/** @type {any} */ job) => {
        job.photos = job.photos || {};
        const one = { at: words.stamp(Date.now()), by: entries.name(), say: row.step.photo, data };
        job.photos[row.id] = [...(job.photos[row.id] || []), one];
      });
    return el(
      "div", { class: "photo" }, el("p", {}, el("span", { class: "label", text: "Photograph" }), ` ${row.step.photo}`),
      ...kept.map(shown), taker(`${at}_photo`, kept.length ? "Add another photograph" : "Add a photograph", take, state)
    );
  }

  seambook.jobPhotos = { taker, shown, block, isPicture };
})();
