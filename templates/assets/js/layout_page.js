/**
 * Draws the layouts of a seam anew when a length was measured. Needs layout.js.
 *
 * Whoever spaces the welds anew says so by the event `seambook:respaced` on the document, once for each method and
 * segment; weld_places.js says what it holds.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { layout, lengths, strokes, weldPlaces } = seambook;

  /** @typedef {{section: HTMLElement, data: LayoutData}} Shown */

  /** @type {Shown[]} */
  const shown = Array.from(document.querySelectorAll(".laid[data-layout]")).flatMap((section) =>
    section instanceof HTMLElement ? [{ section, data: JSON.parse(section.dataset.layout || "null") }] : []
  );

  /** @param {Shown} one */
  function redraw({ section, data }) {
    const svg = section.querySelector("svg.drawing");
    const { marks, height } = layout.draw(data);
    if (svg) strokes.put(svg, marks, height);
    section.querySelectorAll("tbody tr").forEach((line, at) => {
      if (line instanceof HTMLTableRowElement) retell(line, data.segments[at], data.lengths);
    });
    const words = section.querySelector("desc");
    if (words) {
      const said = inWords(section, data);
      words.textContent = said.text;
      words.setAttribute("data-q", said.other);
    }
    follow(section, data);
  }

  /** @param {HTMLTableRowElement} line @param {LaidSegment} segment @param {LengthData} data */
  function retell(line, { length, row, why }, data) {
    /** @param {number} value */
    const say = (value) => lengths.say(data, value);
    const last = row ? row.length - row.first - row.spacing * Math.max(0, row.count - 1) : 0;
    /** @type {(string | BothSaid | null)[]} */
    const cells = [
      null, say(length), row ? String(row.count) : why, null, row ? say(row.first) : "",
      row && row.count > 1 ? say(row.spacing) : "", row ? say(last) : "", row ? row.order.join(", ") : "",
    ];
    cells.forEach((text, at) => {
      if (text !== null) tell(line.cells[at], text);
    });
  }

  /** @param {HTMLElement} cell @param {string | BothSaid} text */
  function tell(cell, text) {
    if (typeof text === "string" || text.text === text.other) {
      cell.textContent = typeof text === "string" ? text : text.text;
      return;
    }
    const span = document.createElement("span");
    span.dataset.q = text.other;
    span.textContent = text.text;
    cell.replaceChildren(span);
  }

  /** @param {HTMLElement} section @param {LayoutData} data @returns {BothSaid} */
  function inWords(section, data) {
    const parts = data.segments.map((segment) => segmentInWords(segment, data.lengths));
    const joined = parts.flatMap((part, at) => (at ? ["; ", part] : [part]));
    return lengths.join(`${section.dataset.method || ""}, from the front. `, ...joined, ".");
  }

  /** @param {LaidSegment} segment @param {LengthData} data @returns {BothSaid} */
  function segmentInWords({ label, length, row, why, factory }, data) {
    const parts = [lengths.join(`${label}: `, lengths.say(data, length))];
    if (row) {
      parts.push(lengths.join(`${row.count} ${row.count === 1 ? "weld" : "welds"}`));
      parts.push(lengths.join("the first at ", lengths.say(data, row.first)));
      if (row.count > 1) parts.push(lengths.join(lengths.say(data, row.spacing), " apart"));
    } else {
      parts.push(lengths.join(why));
    }
    if (factory !== null) parts.push(lengths.join(`the factory had ${factory}`));
    return lengths.join(...parts.flatMap((part, at) => (at ? [", ", part] : [part])));
  }

  /** The strip's page draws what stands behind its address. @param {HTMLElement} section @param {LayoutData} data */
  function follow(section, data) {
    const link = section.querySelector(".to-strip a");
    if (!link) return;
    const rows = data.segments.map(({ length, row }) =>
      row ? [row.length, row.count, row.first, row.spacing].join("~") : String(length)
    );
    link.setAttribute("href", `${(link.getAttribute("href") || "").split("#")[0]}#rows=${rows.join(",")}`);
  }

  document.addEventListener("seambook:respaced", (event) => {
    for (const one of shown) {
      if (weldPlaces.respace(one.data, /** @type {CustomEvent} */ (event).detail)) redraw(one);
    }
  });
})();
