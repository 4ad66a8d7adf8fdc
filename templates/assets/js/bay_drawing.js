/* The welds of the seams that a step makes, drawn from their plans once what draws them is loaded. Needs folder.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const SVG = "http://www.w3.org/2000/svg";

  /** @param {string} text */
  function listed(text) {
    return (text || "").split(" ").filter(Boolean);
  }

  /** Scripts one after the other, each once. @param {string[]} paths */
  async function bring(paths) {
    for (const path of paths) await seambook.folder.bring(path);
  }

  /** @param {any} data @param {string} form */
  function drawn(data, form) {
    const { layout, strokes, lengths } = seambook;
    const { marks, height } = layout.draw({ ...data, form });
    const id = `bay_layout-${data.id}`;
    const svg = document.createElementNS(SVG, "svg");
    for (const [name, value] of Object.entries({ class: "drawing", role: "img", "aria-labelledby": `${id}_title`, width: String(strokes.WIDTH) })) svg.setAttribute(name, value);
    const title = document.createElementNS(SVG, "title");
    title.id = `${id}_title`;
    const welds = data.segments.map((/** @type {any} */ { label, row, why }) => (row ? `${label}: ${row.count} welds, the first at ${lengths.say(data.lengths, row.first).text}` : `${label}: ${why}`));
    title.textContent = `${data.seam}, ${data.methodTitle}. ${welds.join("; ")}`;
    svg.append(title);
    strokes.put(svg, marks, height);
    return el("figure", { class: "block drawn laid bay-laid" }, svg, el("figcaption", { text: `${data.seam}: ${data.methodTitle}` }));
  }

  /** Fill a place with the drawings of a step's seams; what cannot be loaded is left out, as the plan's page has it too.
   * @param {HTMLElement} place @param {any} step @param {string} form */
  async function fill(place, step, form) {
    const seams = /** @type {string[]} */ (step.seams || []);
    if (!form || !seams.length) return;
    await bring([...listed(document.getElementById("bay")?.dataset.drawing || ""), ...seams.map((seam) => `assets/strip/${seam}.js`)]).catch(() => undefined);
    if (!seambook.layout) return;
    const found = seams.map((seam) => seambook.strips?.[seam]?.[step.method]).filter(Boolean);
    place.replaceChildren(...found.map((data) => drawn(data, form)));
  }

  seambook.bayDrawing = { fill, bring, listed };
})();
