/* The timeline in a page, a drawing for each day: as wide as the room it has, and once more for paper. Needs job_timeline.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const SVG = "http://www.w3.org/2000/svg";
  const [PAPER, LEAST] = [672, 280];
  const HATCHES = [["night", 6, "M-1 7 7 -1M-1 1 1 -1M5 7 7 5"], ["0", 7, "M-1 8 8 -1M-1 1 1 -1M6 8 8 6"], ["1", 7, "M-1 -1 8 8M6 -1 8 1M-1 6 1 8"], ["2", 5, "M2.5 0V5"], ["3", 5, "M0 2.5H5"]];

  /** @param {string} tag @param {Record<string, string>} attributes @param {string} [text] */
  function made(tag, attributes, text) {
    const element = document.createElementNS(SVG, tag);
    Object.entries(attributes).forEach(([name, value]) => element.setAttribute(name, value));
    if (text !== undefined) element.textContent = text;
    return element;
  }

  /** @param {string} id */
  function hatches(id) {
    const all = HATCHES.map(([name, size, d]) => {
      const pattern = made("pattern", { id: `${id}_hatch-${name}`, width: String(size), height: String(size), patternUnits: "userSpaceOnUse" });
      pattern.append(made("path", { d: String(d), class: `hatch-${name}` }));
      return pattern;
    });
    const place = made("defs", {});
    place.append(...all);
    return place;
  }

  /** The hatch that a mark is filled with, if any. @param {string} style */
  function hatchOf(style) {
    if (style === "night") return "night";
    const found = /^about about-(\d)/.exec(style);
    return found ? found[1] : null;
  }

  /** All days. @param {string} id @param {{title: string, desc: string}} said @param {TimelineRows} rows @param {TimelineFrame} frame */
  function sheets(id, said, rows, frame) {
    return seambook.jobTimeline.draw(rows, frame).map((/** @type {TimelineSheet} */ sheet, /** @type {number} */ at) => svg(`${id}-${at}`, said, sheet));
  }

  /** @param {string} id @param {{title: string, desc: string}} said @param {TimelineSheet} drawn */
  function svg(id, said, { marks, width, height, title: day }) {
    const sheet = made("svg", {
      class: "timeline", role: "img", viewBox: `0 0 ${width} ${height}`, width: String(width), height: String(height),
      "aria-labelledby": `${id}_title`, "aria-describedby": `${id}_desc`,
    });
    sheet.append(made("title", { id: `${id}_title` }, `${said.title}. ${day}`), made("desc", { id: `${id}_desc` }, said.desc), hatches(id));
    for (const { tag, attributes, text, title } of marks) {
      const hatch = hatchOf(attributes.class);
      const element = made(tag, hatch ? { ...attributes, fill: `url(#${id}_hatch-${hatch})` } : attributes, text);
      if (title) element.append(made("title", {}, title));
      sheet.append(element);
    }
    return sheet;
  }

  /**
   * Draw into `place`, anew whenever its width changes, and for paper at a width of its own.
   * @param {HTMLElement} place @param {string} id @param {{title: string, desc: string}} said @param {TimelineRows} rows
   * @param {{opens: number, closes: number, days: number[], now: number | null}} hours
   */
  function into(place, id, said, rows, hours) {
    const screen = document.createElement("div");
    screen.className = "only-screen";
    let drawnFor = 0;
    const watch = new ResizeObserver(() => {
      const width = Math.max(LEAST, Math.floor(place.clientWidth));
      if (!place.isConnected) watch.disconnect();
      else if (width !== drawnFor) screen.replaceChildren(...sheets(id, said, rows, { ...hours, width }));
      drawnFor = width;
    });
    const onPaper = () => sheets(`${id}_paper`, said, rows, { ...hours, width: PAPER });
    place.replaceChildren(screen, seambook.jobPaper.place(onPaper));
    watch.observe(place);
  }

  /** A small sample of a mark, for the key beside the drawing. @param {TimelineMark[]} marks @param {string} id */
  function sample(marks, id) {
    const sheet = made("svg", { class: "timeline sample", viewBox: "0 0 44 26", width: "44", height: "26", "aria-hidden": "true" });
    sheet.append(hatches(id));
    for (const { tag, attributes, text } of marks) {
      const hatch = hatchOf(attributes.class);
      sheet.append(made(tag, hatch ? { ...attributes, fill: `url(#${id}_hatch-${hatch})` } : attributes, text));
    }
    return sheet;
  }

  seambook.jobTimelineDraw = { into, sheets, sample, PAPER };
})();
