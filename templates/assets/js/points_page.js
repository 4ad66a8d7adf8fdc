/**
 * The page of a calculator that works on points: its cards, the table as text and as a file, and what comes of every
 * point. The calculator's form asks it for the answer (`seambook.measuring`) and is told when a point has changed.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook || {};
  const list = document.getElementById("points_list");
  const asked = document.getElementById("ask_form");
  const form = document.getElementById("points_form");
  const rows = document.getElementById("points_rows");
  const drawing = document.getElementById("points_drawing");
  const area = document.getElementById("points_text");
  /** @type {PointCalculator | undefined} */
  const calculator = (seambook.calculators || {})[asked?.dataset.calculator || ""];
  if (!list || !form || !rows || !drawing || !(area instanceof HTMLTextAreaElement) || !calculator) return;
  start(list, form, rows, drawing, area, calculator);

  /** @param {string} tag @param {string} text @param {string} [style] @param {string} [head] */
  function element(tag, text, style, head) {
    const made = document.createElement(tag);
    made.textContent = text;
    if (style) made.className = style;
    if (head) made.dataset.head = head;
    return made;
  }

  /** @param {PointTable} table @param {Deviation} row @param {number} at */
  function rowOf(table, row, at) {
    const isOther = seambook.pointCards.isOther(table);
    const number = (/** @type {number} */ value) => seambook.points.lengthText(table, value, isOther);
    const sign = document.getElementById("points_unit")?.textContent || "";
    const made = element("tr", "", row.isDoubtful ? "deviation-doubtful" : row.isBeyond ? "deviation-beyond" : "deviation-within");
    const name = element("td", `${at + 1} ${row.name}`);
    if (row.sound) name.append(" ", element("span", table.say.sound, "note"));
    const verdict = seambook.points.verdict(table, row, (/** @type {number} */ value) => `${number(value)}\u00a0${sign}`);
    made.append(
      name,
      ...row.off.map((value, axis) => element("td", number(value), "number", table.axes[axis])),
      element("td", number(row.length), "number", "Distance"),
      element("td", verdict, "", "Verdict")
    );
    return made;
  }

  /** @param {HTMLElement} place @param {PointTable} table @param {MeasuredPoint[]} points @param {Deviation[]} deviations */
  function drawInto(place, table, points, deviations) {
    place.hidden = !deviations.length;
    place.replaceChildren();
    if (!deviations.length) return;
    const isOther = seambook.pointCards.isOther(table);
    const drawn = deviations.map((row, at) => {
      const place = points[at].stated.map((value, axis) => (axis === table.mirror ? -value : value));
      return { at: place, off: row.off, sound: row.sound, number: at + 1 };
    });
    const [x, y, z] = table.axes;
    const text = (/** @type {number} */ value) => seambook.points.lengthText(table, value, isOther);
    const views = [
      { title: `From above: ${x}, ${y}`, across: 0, up: 1, names: [x, y], text },
      { title: `From the side: ${x}, ${z}`, across: 0, up: 2, names: [x, z], text },
    ];
    const factor = seambook.pointDrawing.factorFor(drawn, views);
    for (const view of views) {
      const figure = document.createElement("figure");
      figure.append(element("figcaption", view.title), seambook.pointDrawing.draw(drawn, view, factor));
      place.append(figure);
    }
    const said =
      `Arrows are drawn ${factor} times as long as the body is to scale; they go from where a point should be to where it is. ` +
      `Beside each point stand its number in the table below and, where there is an arrow, its length in this view. ` +
      `Full round marks: ${table.say.sound.toLowerCase()}. Open square marks: the others.`;
    place.append(element("p", said, "note"));
  }

  /** @param {RowFault[]} faults @param {string} [said] */
  function showTextFaults(faults, said) {
    const place = document.getElementById("points_text-fault");
    if (!place) return;
    place.hidden = !faults.length && !said;
    const items = faults.map((one) => element("li", `${seambook.pointRows.placed(one)}; ${one.do}.`, "fault"));
    place.replaceChildren(...items, ...(said ? [element("li", said)] : []));
  }

  /** Read a file as UTF-8. @param {File} file @param {(text: string) => void} take */
  function load(file, take) {
    const reader = new FileReader();
    const details = document.getElementById("points_details");
    if (details instanceof HTMLDetailsElement) details.open = true;
    /** @param {string} message @param {string} todo */
    const refuse = (message, todo) => showTextFaults([{ line: 0, column: "", message: `${file.name} ${message}`, do: todo }]);
    reader.addEventListener("load", () => {
      const text = String(reader.result);
      if (text.includes("\ufffd")) refuse("is not UTF-8", "save the table as UTF-8");
      else take(text);
    });
    reader.addEventListener("error", () => refuse("cannot be read", "choose it again"));
    reader.readAsText(file);
  }

  /**
   * @param {HTMLElement} list @param {HTMLElement} form @param {HTMLElement} rows @param {HTMLElement} drawing
   * @param {HTMLTextAreaElement} area @param {PointCalculator} calculator
   */
  function start(list, form, rows, drawing, area, calculator) {
    const table = calculator.points;
    const cards = seambook.pointCards.open(list, table);
    let unit = seambook.pointCards.shownUnit(table);
    /** @type {MeasuredPoint[]} */
    let points = [];

    /** @param {PointCalculator} _ @param {Record<string, string | undefined>} given */
    function run(_, given) {
      const read = cards.read();
      points = read.points;
      const left = document.getElementById("points_fault");
      if (left) {
        left.hidden = !read.left;
        left.textContent = read.left === 1 ? "One point is left out; it says why." : `${read.left} points are left out; each says why.`;
      }
      if (document.activeElement !== area) area.value = seambook.pointRows.writeRows(points, table);
      const { answer, fitted } = seambook.points.run(calculator, points, given);
      /** @type {Deviation[]} */
      const deviations = fitted ? fitted.deviations : [];
      rows.replaceChildren(...deviations.map((row, at) => rowOf(table, row, at)));
      drawInto(drawing, table, points, deviations);
      return answer;
    }

    function changed() {
      document.dispatchEvent(new Event("seambook:points"));
    }

    /** Put the points of a text into the cards, or say why not and leave the cards as they are. @param {string} text */
    function take(text) {
      const read = seambook.pointRows.readRows(text, table, unit);
      const isWrong = read.faults.length > 0;
      const sign = document.getElementById("points_unit")?.textContent || "";
      showTextFaults(read.faults, isWrong ? "The points above are as they were." : `${read.points.length} points are taken over, bare numbers in ${sign}.`);
      if (isWrong) return;
      cards.set(read.points);
      changed();
    }

    listen(form, cards, { changed, take, text: () => seambook.pointRows.writeRows(points, table) });
    document.addEventListener("seambook:units", () => {
      cards.retell(unit);
      unit = seambook.pointCards.shownUnit(table);
    });
    seambook.measuring = { run };
  }

  /** @param {HTMLElement} form @param {any} cards
   * @param {{changed: () => void, take: (text: string) => void, text: () => string}} does */
  function listen(form, cards, does) {
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", (event) => {
      if (event.target === document.getElementById("points_text")) does.take(/** @type {HTMLTextAreaElement} */ (event.target).value);
      else if (!(event.target instanceof HTMLInputElement && event.target.type === "file")) does.changed();
    });
    form.addEventListener("click", (event) => {
      const button = event.target instanceof Element ? event.target.closest("button, a") : null;
      if (button?.matches(".point-out")) {
        const item = button.closest(".point");
        const next = item?.nextElementSibling || item?.previousElementSibling;
        if (item) cards.takeOut(item);
        const field = next?.querySelector("input") || document.getElementById("points_add");
        if (field instanceof HTMLElement) field.focus();
        does.changed();
      } else if (button?.id === "points_add") {
        cards.add().name.focus();
      } else if (button?.id === "points_clear") {
        cards.set([]);
        cards.add().name.focus();
        does.changed();
      } else if (button instanceof HTMLAnchorElement && button.download) {
        button.href = URL.createObjectURL(new Blob([does.text()], { type: "text/csv" }));
      }
    });
    const file = document.getElementById("points_file");
    file?.addEventListener("change", () => {
      const chosen = file instanceof HTMLInputElement ? file.files?.[0] : undefined;
      if (chosen) load(chosen, does.take);
      if (file instanceof HTMLInputElement) file.value = ""; // so that the same file can be chosen again
    });
    form.querySelectorAll("fieldset").forEach((set) => (set.disabled = false));
    form.querySelectorAll("[hidden].point-out, #points_tools, #points_more, #points_details").forEach((part) => {
      if (part instanceof HTMLElement) part.hidden = false;
    });
  }
})();
