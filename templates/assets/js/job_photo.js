/**
 * A photograph from the phone -> a small one that a job can keep: at most 1600 pixels, as JPEG, without its place and date.
 */
(function () {
  "use strict";

  const LARGEST = 1600;
  const MOST_LETTERS = 4000000;
  const QUALITIES = [0.82, 0.7, 0.55, 0.4];
  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** The size in which a picture is kept. @param {number} width @param {number} height @returns {[number, number]} */
  function kept(width, height) {
    const share = Math.min(1, LARGEST / Math.max(width, height));
    return [Math.max(1, Math.round(width * share)), Math.max(1, Math.round(height * share))];
  }

  /**
   * Make a picture small enough to keep. Fails where the file is no picture that the browser can read.
   * @param {Blob} file @returns {Promise<string>} as a data URL
   */
  async function take(file) {
    const picture = await window.createImageBitmap(file, { imageOrientation: "from-image" });
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = kept(picture.width, picture.height);
    const drawing = canvas.getContext("2d");
    if (!drawing) throw new Error("the browser cannot draw pictures");
    drawing.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    for (const quality of QUALITIES) {
      const made = canvas.toDataURL("image/jpeg", quality);
      if (made.length <= MOST_LETTERS) return made;
    }
    throw new Error("the picture stays too large");
  }

  seambook.jobPhoto = { take, kept };
})();
