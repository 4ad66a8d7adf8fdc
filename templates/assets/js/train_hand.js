/* A file handed to the reader, and the control by which one is handed back. Needs job_dom.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const A_MINUTE = 60000;

  /** @param {string} name @param {string} text @param {string} [sort] what sort of file it is */
  function give(name, text, sort = "application/json") {
    const address = URL.createObjectURL(new Blob([text], { type: sort }));
    const way = el("a", { href: address, download: name });
    document.body.append(way);
    way.click();
    way.remove();
    window.setTimeout(() => URL.revokeObjectURL(address), A_MINUTE);
  }

  /** @param {string} id @param {string} say @param {(file: File) => void} take */
  function opener(id, say, take) {
    const field = el("input", { type: "file", id, class: "unseen", accept: ".json,application/json", on: {
      change: () => {
        const [file] = field.files || [];
        field.value = "";
        if (file) take(file);
      },
    } });
    return el("span", { class: "train-opener" }, field, el("label", { class: "control", for: id, text: say }));
  }

  seambook.trainHand = { give, opener };
})();
