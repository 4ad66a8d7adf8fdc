/* The marking strips of the seams that a job joins: their data loaded seam by seam, their sheets drawn as their own pages do.
   Needs strip.js and folder.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const SVG = "http://www.w3.org/2000/svg";
  /** The seams and methods of the job's steps, each once. @param {any} state @returns {{seam: string, method: string}[]} */
  function joined(state) {
    /** @type {Map<string, {seam: string, method: string}>} */
    const found = new Map();
    for (const { step } of seambook.jobRows.of(state)) {
      for (const seam of step.seams || []) found.set(`${seam}/${step.method}`, { seam, method: step.method });
    }
    return [...found.values()];
  }

  /** Load what all strips of a job are drawn from. @param {any} state */
  async function ready(state) {
    const seams = new Set(joined(state).map(({ seam }) => seam));
    const wanted = [...seams].filter((seam) => !seambook.strips?.[seam]);
    await Promise.all(wanted.map((seam) => seambook.folder.bring(`assets/strip/${seam}.js`).catch(() => undefined)));
  }

  /** The data of each strip there is: a method that makes no single welds has none. @param {any} state @returns {any[]} */
  function strips(state) {
    return joined(state).map(({ seam, method }) => seambook.strips?.[seam]?.[method]).filter(Boolean);
  }

  /** @param {string} tag @param {Record<string, string>} attributes @param {string} [text] */
  function made(tag, attributes, text) {
    const element = document.createElementNS(SVG, tag);
    Object.entries(attributes).forEach(([name, value]) => element.setAttribute(name, value));
    if (text !== undefined) element.textContent = text;
    return element;
  }

  /** All sheets, a page each. @param {any} state @returns {Node[]} */
  function sheets(state) {
    const { strip, paper } = seambook;
    return strips(state).flatMap((data) => strip.sheets(data).map((/** @type {{title: string, marks: Mark[]}} */ { title, marks }, /** @type {number} */ at) => {
      const id = `${data.id}-${at + 1}_title`;
      const page = document.createElement("div");
      page.className = "strip-page";
      const svg = made("svg", {
        class: "strip-sheet", role: "img", "aria-labelledby": id, viewBox: `0 0 ${strip.WIDTH} ${strip.HEIGHT}`,
        width: `${paper.mm(strip.WIDTH)}mm`, height: `${paper.mm(strip.HEIGHT)}mm`,
      });
      svg.append(made("title", { id }, title), ...marks.map((mark) => made(mark.tag, mark.attributes, mark.text)));
      const address = seambook.qrDraw?.address(data.path);
      page.append(svg, ...(address ? [seambook.qrDraw.draw(address)] : []));
      return page;
    }));
  }

  seambook.jobStrips = { joined, ready, strips, sheets };
})();
