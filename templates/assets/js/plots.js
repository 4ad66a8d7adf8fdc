/**
 * The charts and the sketch of a calculator, redrawn when it has answered. Needs series.js, chart.js, turns.js and the
 * sketches. The builder's `view/plots.py` says the same of the same values.
 */

/**
 * @typedef {{measure: string, name: string, say: string, unit: Unit, digits: number | null, other: Other | null}} MeasureData
 * @typedef {{form: string, measures: MeasureData[], order: string | null, orderSay: string}} SketchData
 * @typedef {{unit: Unit, digits: number | null, sign: string}} Way  How numbers of one sort are said.
 * @typedef {{calculator: Calculator, given: Record<string, string | undefined>, answer: any, entries: Entry[],
 *   answers: ShownAnswer[]}} Answered
 * @typedef {{words: string, notes: string[], head: string[], rows: string[][]}} Said
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { numbers, formula, series, strokes } = seambook;
  const [GIVEN_FIGURES, EDGE_FIGURES] = [5, 4];
  const NO_ANSWER = "no answer";
  const BARE = { name: "", factor: 1, offset: 0, exact: ["1", "1", "0", "1"] };

  // How numbers are said.

  /** @param {number} number @param {number} count @returns {string} */
  function figures(number, count) {
    return numbers.plain(Number(number.toPrecision(count)));
  }

  /** @param {Way} way @param {number} base @returns {string} */
  function alone({ unit, digits }, base) {
    const number = series.inUnit(base, unit);
    return digits === null ? figures(number, GIVEN_FIGURES) : numbers.fixed(number, digits);
  }

  /** @param {Way} way @param {number} base */
  function textOf(way, base) {
    return alone(way, base) + seambook.shown.withBlank(way.sign);
  }

  /** @param {string} text @param {Way} way */
  function withUnit(text, way) {
    return way.sign ? `${text}, ${way.sign}` : text;
  }

  /** @param {Entry} entry @returns {Way} */
  function wayOfEntry({ input, unit, choice, sign }) {
    const found = input && input.units.find((one) => one.name === unit);
    const option = choice && choice.selectedOptions[0];
    return { unit: found || BARE, digits: null, sign: ((option || sign)?.textContent || "").trim() };
  }

  /** @param {ShownAnswer} answer @returns {Way} */
  function wayOfAnswer(answer) {
    const offered = seambook.shown.offeredOf(answer);
    const digits = offered && offered.digits !== undefined ? offered.digits : answer.output.digits;
    return { unit: offered || BARE, digits, sign: seambook.shown.behind(answer).trim() };
  }

  // Charts.

  /** @param {ChartData} data @param {Answered} now @returns {{chart: Chart, said: Said} | null} */
  function chartOf(data, now) {
    const { values, faults } = formula.take(now.calculator, now.given);
    if (Object.keys(faults).some((id) => id !== data.over)) return null;
    const isWhole = Object.keys(faults).length === 0;
    const entry = now.entries.find((one) => one.id === data.over);
    const shown = data.show.flatMap((id) => now.answers.filter(({ output }) => output.id === id));
    if (!entry || shown.length !== data.show.length) return null;
    /** @type {Series} */
    const found = series.series(now.calculator, data, isWhole ? now.answer.values : values);
    const across = wayOfEntry(entry);
    const up = shown.map((one) => ({ ...wayOfAnswer(shown[0]), digits: wayOfAnswer(one).digits }));
    const chart = drawnOf(data, found, /** @type {Input} */ (entry.input).ask, across, up, shown);
    return { chart, said: chartSaid(data, chart, found, entry, across, up) };
  }

  /** @param {ChartData} data @param {Series} found @param {string} ask @param {Way} across @param {Way[]} up
   * @param {ShownAnswer[]} shown @returns {Chart} */
  function drawnOf(data, found, ask, across, up, shown) {
    /** @param {number} base @returns {number} */
    const x = (base) => series.inUnit(base, across.unit);
    const traces = shown.map(({ output }, place) => traceOf(found, x, place, up[place], output.say));
    const limit = found.limit === null ? null
      : { label: data.limitSay, y: series.inUnit(found.limit, up[0].unit), value: textOf(up[0], found.limit) };
    return {
      foot: withUnit(ask, across),
      unit: up[0].sign,
      start: x(found.samples[0].x),
      end: x(found.samples[found.samples.length - 1].x),
      traces,
      stepped: found.stepped,
      limit,
      here: found.here && found.given !== null ? x(found.given) : null,
      hereSaid: found.given === null ? "" : textOf(across, found.given),
    };
  }

  /** @param {Series} found @param {(base: number) => number} x @param {number} place @param {Way} up @param {string} label
   * @returns {Trace} */
  function traceOf(found, x, place, up, label) {
    const here = found.here ? found.here.ys[place] : null;
    const points = found.samples.map((sample) => {
      const y = sample.ys[place];
      return /** @type {[number, number | null]} */ ([x(sample.x), y === null ? null : series.inUnit(y, up.unit)]);
    });
    const isKnown = here !== null;
    return { label, points, here: isKnown ? series.inUnit(here, up.unit) : null, value: isKnown ? textOf(up, here) : "" };
  }

  /** @param {ChartData} data @param {Chart} chart @param {Series} found @param {Entry} entry @param {Way} across
   * @param {Way[]} up @returns {Said} */
  function chartSaid(data, chart, found, entry, across, up) {
    const [start, end] = [series.inUnit(data.start, across.unit), series.inUnit(data.end, across.unit)];
    /** @type {number[]} */
    const places = series.rowPlaces(start, end, !!entry.input && entry.input.whole);
    const rows = places.map((place) => {
      const sample = found.at(series.toBase(place, across.unit));
      const cells = sample.ys.map((y, at) => (y === null ? NO_ANSWER : alone(up[at], y)));
      return [alone(across, sample.x), ...cells];
    });
    const head = [chart.foot, ...chart.traces.map(({ label }, at) => withUnit(label, up[at]))];
    return { words: chartWords(chart, rows), notes: chartNotes(chart, found, across), head, rows };
  }

  /** @param {Chart} chart @param {string[][]} rows */
  function chartWords(chart, rows) {
    const lines = chart.traces.map(({ label }) => label).join(", ");
    const ends = rows.length ? `, from ${rows[0][0]} to ${rows[rows.length - 1][0]}` : "";
    const parts = [`${lines}, over: ${chart.foot}${ends}.`];
    for (const { label, value } of chart.traces) if (value) parts.push(`At ${chart.hereSaid}: ${label} ${value}.`);
    if (chart.limit) parts.push(`${chart.limit.label}: ${chart.limit.value}.`);
    return parts.join(" ");
  }

  /** @param {Chart} chart @param {Series} found @param {Way} across @returns {string[]} */
  function chartNotes(chart, found, across) {
    const notes = chart.here === null && chart.hereSaid ? [`${chart.hereSaid} lies outside the chart.`] : [];
    chart.traces.forEach((trace, at) => {
      for (const gap of gapsOf(trace)) {
        const what = chart.traces.length > 1 ? `${trace.label}: no answer` : "No answer";
        const ends = gap.map((x) => figures(x, EDGE_FIGURES) + seambook.shown.withBlank(across.sign));
        const where = ends[0] !== ends[1] ? `from ${ends[0]} to ${ends[1]}` : `at ${ends[0]}`;
        notes.push(`${what} ${where}: ${found.why[at]}.`);
      }
    });
    return notes;
  }

  /** @param {Trace} trace @returns {Array<[number, number]>} */
  function gapsOf(trace) {
    /** @type {Array<[number, number]>} */
    const found = [];
    let isOn = false;
    for (const [x, y] of trace.points) {
      if (y === null && isOn) found[found.length - 1][1] = x;
      else if (y === null) found.push([x, x]);
      isOn = y === null;
    }
    return found;
  }

  // Sketches.

  /** @param {SketchData} data @param {Answered} now @returns {{sketch: Sketch, said: Said}} */
  function sketchOf(data, now) {
    /** @type {Record<string, Measure>} */
    const measures = {};
    for (const one of data.measures) {
      const value = now.answer.values[one.name];
      const isKnown = typeof value === "number";
      const text = isKnown ? textOf(wayOfMeasure(one, now), value) : `${NO_ANSWER}: ${value.why}`;
      measures[one.measure] = { name: one.say, value: isKnown ? value : null, text };
    }
    const result = data.order === null ? null : now.answer.outputs[data.order];
    const order = result && result.value !== null ? result.text : "";
    const all = Object.values(measures);
    const rows = all.map(({ name, text }) => [name, text]);
    if (order) rows.push([data.orderSay, order]);
    const said = {
      words: `${all.map(({ name, text }) => `${name}: ${text}`).join("; ")}.`,
      notes: all.filter(({ value }) => value === null).map(({ name, text }) => `${name}: ${text}.`),
      head: ["Measure", "Value"],
      rows,
    };
    return { sketch: { id: "sketch", measures, turns: seambook.turnsOf(order) }, said };
  }

  /** @param {MeasureData} data @param {Answered} now @returns {Way} */
  function wayOfMeasure(data, now) {
    const answer = now.answers.find(({ output }) => output.id === data.name);
    if (answer) return wayOfAnswer(answer);
    const entry = now.entries.find((one) => one.id === data.name);
    if (entry) return wayOfEntry(entry);
    const { unit, digits } = seambook.entries.isShown(data.other) && data.other ? data.other : data;
    return { unit, digits: digits === undefined ? null : digits, sign: signOf(unit.name, now) };
  }

  /** The sign of a unit as the page writes it anywhere. @param {string} name @param {Answered} now */
  function signOf(name, now) {
    const options = Array.from(document.querySelectorAll(".unit-choice option"));
    const found = options.find((option) => option instanceof HTMLOptionElement && option.value === name);
    const entry = now.entries.find((one) => one.unit === name && one.sign);
    return (found || (entry && entry.sign))?.textContent || name;
  }

  // On the page.

  /** @param {string} id @param {{marks: Mark[], height: number}} drawn @param {Said} said */
  function show(id, drawn, said) {
    const section = document.getElementById(id);
    const svg = section && section.querySelector("svg.drawing");
    const [notes, table] = [document.getElementById(`${id}_notes`), document.getElementById(`${id}_table`)];
    const details = section && section.querySelector("details");
    if (!svg || !notes || !details || !(table instanceof HTMLTableElement)) return;
    strokes.put(svg, drawn.marks, drawn.height);
    svg.toggleAttribute("hidden", drawn.marks.length === 0);
    details.hidden = said.rows.length === 0;
    const words = svg.querySelector("desc");
    if (words) words.textContent = said.words;
    notes.replaceChildren(...said.notes.map((note) => made("p", note)));
    notes.hidden = said.notes.length === 0;
    table.tHead?.replaceChildren(row(said.head, "th"));
    table.tBodies[0].replaceChildren(...said.rows.map((cells) => row(cells, "td")));
  }

  /** @param {string} tag @param {string} text */
  function made(tag, text) {
    const element = document.createElement(tag);
    element.textContent = text;
    return element;
  }

  /** @param {string[]} cells @param {string} tag */
  function row(cells, tag) {
    const element = document.createElement("tr");
    cells.forEach((text, at) => {
      const cell = made(tag, text);
      if (tag === "th") cell.setAttribute("scope", "col");
      if (at) cell.className = "number";
      element.append(cell);
    });
    return element;
  }

  const NOT_DRAWN = { words: "", notes: ["Not drawn: an entry cannot be used."], head: [], rows: [] };
  const NOTHING = { marks: [], height: 20 };

  /** @param {Answered} now */
  function redraw(now) {
    const { calculator, answer } = now;
    for (const data of calculator.charts) {
      const found = chartOf(data, now);
      if (found) show(data.id, seambook.chart.draw(found.chart), found.said);
      else show(data.id, NOTHING, NOT_DRAWN);
    }
    if (!calculator.sketch) return;
    if (Object.keys(answer.faults).length) {
      show("sketch", NOTHING, NOT_DRAWN);
    } else {
      const { sketch, said } = sketchOf(calculator.sketch, now);
      show("sketch", seambook.sketches[calculator.sketch.form](sketch), said);
    }
  }

  // Answers come with every key; one drawing a frame is enough.
  /** @type {Answered | null} */
  let latest = null;
  document.addEventListener("seambook:answered", (event) => {
    const isWaiting = latest !== null;
    latest = /** @type {CustomEvent} */ (event).detail;
    if (isWaiting) return;
    window.requestAnimationFrame(() => {
      if (latest) redraw(latest);
      latest = null;
    });
  });

  seambook.plots = { chartOf, sketchOf, redraw };
})();
