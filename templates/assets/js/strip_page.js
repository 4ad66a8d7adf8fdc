/**
 * The page of a marking strip: draws it for the lengths that stand behind its address, and prints it. Needs strip.js.
 *
 * `#rows=` holds the segments from the front, parted by commas: length, count, first and spacing of the welds in mm,
 * parted by `~`; of a segment without welds its length alone. The seam's page writes it (layout_page.js).
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { strip, paper, lengths, weldPlaces } = seambook;
  const SVG = "http://www.w3.org/2000/svg";
  const LONGEST = 20000;
  const section = document.querySelector("[data-strip]");
  if (!(section instanceof HTMLElement)) return;
  const sheets = /** @type {HTMLElement} */ (section.querySelector(".sheets"));
  const fault = /** @type {HTMLElement} */ (document.getElementById("strip_fault"));
  const measured = /** @type {HTMLElement} */ (document.getElementById("strip_measured"));
  const button = /** @type {HTMLElement} */ (document.getElementById("strip_print"));
  /** The way to this page, which each sheet carries; a book without an address has none. */
  const code = sheets.querySelector(".code");
  const record = section.dataset.strip || "null";
  /** @type {StripData} */
  let data = JSON.parse(record);

  function redraw() {
    /** @type {{title: string, marks: Mark[]}[]} */
    const drawn = strip.sheets(data);
    sheets.replaceChildren(...drawn.map(({ title, marks }, at) => sheetOf(`${data.id}-${at + 1}_title`, title, marks)));
    document.querySelectorAll("#strip_places > p > span").forEach((place, at) => tellPlaces(place, data.segments[at]));
  }

  /** @param {string} id @param {string} title @param {Mark[]} marks */
  function sheetOf(id, title, marks) {
    const page = document.createElement("div");
    page.className = "strip-page";
    const svg = made("svg", {
      class: "strip-sheet", role: "img", "aria-labelledby": id, viewBox: `0 0 ${strip.WIDTH} ${strip.HEIGHT}`,
      width: `${paper.mm(strip.WIDTH)}mm`, height: `${paper.mm(strip.HEIGHT)}mm`,
    });
    svg.append(made("title", { id }, title), ...marks.map(({ tag, attributes, text }) => made(tag, attributes, text)));
    page.append(svg, ...(code ? [code.cloneNode(true)] : []));
    return page;
  }

  /** @param {string} tag @param {Record<string, string>} attributes @param {string} [text] */
  function made(tag, attributes, text) {
    const element = document.createElementNS(SVG, tag);
    Object.keys(attributes).forEach((name) => element.setAttribute(name, attributes[name]));
    if (text !== undefined) element.textContent = text;
    return element;
  }

  /** @param {Element} place @param {LaidSegment} segment */
  function tellPlaces(place, segment) {
    /** @type {number[]} */
    const all = weldPlaces.planned(segment);
    const spans = all.flatMap((one, at) => {
      const said = lengths.say(data.lengths, one, true);
      const span = document.createElement("span");
      span.textContent = said.text;
      if (said.other !== said.text) span.dataset.q = said.other;
      return at ? [", ", span] : [span];
    });
    place.replaceChildren(...(segment.row ? spans : [segment.why]));
  }

  /** What stands behind the address; null where it fits no segments of this seam. @param {string} text */
  function rowsIn(text) {
    const parts = text.split(",").map((part) => part.split("~").map(Number));
    const fits = parts.length === data.segments.length && parts.every(isSegment);
    return fits ? parts : null;
  }

  /** @param {number[]} numbers */
  function isSegment(numbers) {
    const [length, count, first, spacing] = numbers;
    if (!numbers.every((one) => Number.isFinite(one) && one >= 0) || !(length > 0 && length <= LONGEST)) return false;
    if (numbers.length === 1) return true;
    const last = first + spacing * Math.max(0, count - 1);
    return numbers.length === 4 && Number.isInteger(count) && count <= weldPlaces.MOST && last <= length + 0.5;
  }

  function takeAddress() {
    const found = /^#rows=(.*)$/.exec(window.location.hash);
    data = JSON.parse(record);
    const rows = found && rowsIn(found[1]);
    (rows || []).forEach(([length, count, first, spacing], at) => {
      const segment = data.segments[at];
      segment.length = length;
      segment.why = segment.why || (count === undefined ? data.notPlanned : "");
      segment.row = count === undefined ? null : { length, count, first, spacing, order: [] };
    });
    fault.hidden = !found || !!rows;
    fault.textContent = "What stands behind this page's address is no strip of this seam. Drawn as recorded.";
    measured.hidden = !rows;
    if (found) redraw();
  }

  document.addEventListener("seambook:respaced", (event) => {
    if (weldPlaces.respace(data, /** @type {CustomEvent} */ (event).detail)) redraw();
  });
  window.addEventListener("hashchange", takeAddress);
  button.addEventListener("click", () => window.print());
  button.hidden = false;
  takeAddress();
})();
