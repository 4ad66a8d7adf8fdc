/**
 * Practical tests: what is to be done, the numbers that are given, what is measured and worked out, and the calculator's verdict.
 * Each try is kept. Needs train_judge.js, train_stand.js, train_round.js.
 */
(function () {
  "use strict";

  /** @typedef {{seed: string, typed: {measured: Record<string, string>, own: Record<string, string>, by: string}, faults: Record<string, string>, came: any}} Bench a test as it stands on the page */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const LONGEST = 1000;
  const { el, button, labelled, focusOn } = seambook.dom;
  const { trainJudge, trainRound, trainStand, trainWords } = seambook;

  /** A value with its unit, or a choice in its words. @param {any} calculator @param {string} id @param {string} value @returns {string} */
  function valueOf(calculator, id, value) {
    const { choices, unit } = trainJudge.inputOf(calculator, id);
    if (choices) return choices[value] || value;
    return /[a-z%\u00b0]/i.test(value) || !unit ? value : `${value} ${unit}`;
  }

  /** Words of the book, whose ways are written from its root. @param {string} html */
  function prose(html) {
    const made = el("div", { class: "prose" }, ...seambook.folder.nodes(html));
    for (const way of made.querySelectorAll("a[href]")) {
      const to = way.getAttribute("href");
      if (!/^(#|[a-z]+:)/i.test(to)) way.setAttribute("href", trainWords.href(to));
    }
    return made;
  }

  /** @param {any} calculator @param {Record<string, string>} given */
  function givens(calculator, given) {
    const rows = Object.entries(given).map(([id, value]) => el("div", {}, el("dt", { text: trainJudge.inputOf(calculator, id).ask }), el("dd", { text: valueOf(calculator, id, value) })));
    return rows.length ? el("dl", { class: "rows train-given" }, rows) : null;
  }

  /** @param {string} id @param {string} label @param {any} control @param {string} fault @param {string} [note] */
  function entry(id, label, control, fault, note) {
    if (fault) control.setAttribute("aria-invalid", "true");
    const made = labelled(id, label, control, note);
    if (fault) {
      made.append(el("p", { class: "fault", id: `${id}-fault`, text: fault }));
      control.setAttribute("aria-describedby", `${id}-fault${note ? ` ${id}-note` : ""}`);
    }
    return made;
  }

  /** @param {string} name @param {any} calculator @param {{input: string, ask: string}} wanted @param {Bench} bench */
  function measured(name, calculator, { input, ask }, { typed, faults }) {
    const { choices, unit, admits, ask: own } = trainJudge.inputOf(calculator, input);
    const keep = () => void (typed.measured[input] = control.value);
    const control = choices
      ? el("select", { on: { change: keep } }, [["", "not said yet"], ...Object.entries(choices)].map(([id, say]) => el("option", { value: id, text: say, selected: id === (typed.measured[input] || "") })))
      : el("input", { type: "text", inputmode: "decimal", autocomplete: "off", value: typed.measured[input] || "", on: { input: keep } });
    return entry(`${name}-${input}`, `${ask || own}${unit ? `, ${unit}` : ""}`, control, faults[input], choices ? "" : admits);
  }

  /** @param {string} name @param {any} calculator @param {string} output @param {Bench} bench */
  function worked(name, calculator, output, { typed, faults }) {
    const { say, unit } = trainJudge.outputOf(calculator, output);
    const control = el("input", { type: "text", inputmode: "decimal", autocomplete: "off", value: typed.own[output] || "", on: { input: () => void (typed.own[output] = control.value) } });
    return entry(`${name}-own-${output}`, `Your own figure: ${say}${unit?.name ? `, ${unit.name}` : ""}`, control, faults[output]);
  }

  /** The way to the calculator with the numbers of a try in it. @param {any} lesson @param {any} test @param {Record<string, string>} values */
  function wayToCalculator(lesson, test, values) {
    const found = lesson.stands_on.find((/** @type {any} */ one) => one.ref === `calculator:${test.calculator}`);
    if (!found) return null;
    const given = Object.entries(values).map(([id, value]) => `${id}:${encodeURIComponent(value).replace(/%20/g, "~")}`).join(",");
    return el("p", { class: "rework" }, el("a", { href: trainWords.href(`${found.path}#in=${given}`), text: `${found.title}, with these numbers` }));
  }

  /** @param {any} lesson @param {any} test @param {Bench} bench */
  function verdict(lesson, test, { came, typed, seed }) {
    const { ok, rows, warnings } = came;
    return el("div", { class: `train-verdict${ok ? "" : " is-wrong"}`, id: `train_came-${test.key}`, tabindex: "-1" },
      el("p", { class: "train-verdict-word", text: ok ? "\u2713 It passes" : "\u00d7 It does not pass" }),
      el("ul", { class: "list" }, rows.map((/** @type {any} */ row) => el("li", {}, el("p", {}, el("strong", { text: `${row.ok ? "\u2713" : "\u00d7"} ${row.say}: ` }), row.found),
        row.ok ? null : el("p", { text: `It should be: ${row.wanted}` }), row.note ? el("p", { class: "note", text: row.note }) : null))),
      warnings.length ? el("ul", { class: "cautions" }, warnings.map((/** @type {any} */ one) => el("li", { class: `caution-${one.level}` }, el("strong", { text: { stop: "Stop", care: "Take care", note: "Note" }[/** @type {"stop" | "care" | "note"} */ (one.level)] }), el("div", { text: one.say })))) : null,
      wayToCalculator(lesson, test, { ...trainJudge.draw(test, seed), ...typed.measured }));
  }

  /** @param {any} desk @param {any} lesson @param {any} test @param {Bench} bench */
  function judge(desk, lesson, test, bench) {
    const { typed, seed } = bench;
    const given = trainJudge.draw(test, seed);
    const came = trainJudge.judge(test, seambook.calculators[test.calculator], { given, measured: typed.measured, own: typed.own });
    bench.faults = came.faults;
    bench.came = null;
    const [wrong] = Object.keys(came.faults);
    if (wrong) {
      desk.draw();
      return focusOn(`train_test-${test.key}-${wrong}`, `train_test-${test.key}-own-${wrong}`);
    }
    bench.came = came;
    const said = came.rows.map((/** @type {any} */ row) => `${row.say}: ${row.found}`).join("; ");
    desk.change((/** @type {any} */ person) => {
      const { tests } = trainRound.doneOf(person, lesson.id);
      tests[test.key] = [...(tests[test.key] || []), {
        at: trainWords.now(), by: typed.by.trim() || null, seed, given, measured: { ...typed.measured }, own: { ...typed.own },
        passed: came.ok, verdict: said.slice(0, LONGEST) || null, against: trainStand.against(lesson.stands_on),
      }];
    });
    return focusOn(`train_came-${test.key}`);
  }

  /** @param {any} test @param {string} before the last one's number @returns {Bench} */
  function fresh(test, before) {
    return { seed: trainJudge.freshSeed(test, trainWords.newSeed, before), typed: { measured: {}, own: {}, by: "" }, faults: {}, came: null };
  }

  /** @param {any} stood */
  function standing({ test: { times = 1 }, last, passed, row, isPassed }) {
    if (isPassed) return `Passed on ${trainWords.day(passed.at)}.`;
    if (passed) return `Passed on ${trainWords.day(passed.at)}, and to be done again, since what it rests on was changed.`;
    if (!last) return times > 1 ? `Not tried yet. It is passed ${times} times in a row.` : "Not tried yet.";
    return times > 1 ? `${row} of ${times} in a row.` : "Not passed yet.";
  }

  /** @param {any} desk @param {any} lesson @param {any} stood @param {any} state */
  function block(desk, lesson, stood, state) {
    const { test } = stood;
    const calculator = seambook.calculators[test.calculator];
    const name = `train_test-${test.key}`;
    const bench = (state.benches[test.key] = state.benches[test.key] || fresh(test, ""));
    const again = () => {
      state.benches[test.key] = { ...fresh(test, bench.seed), typed: { measured: {}, own: {}, by: bench.typed.by } };
      desk.draw();
      focusOn(`${name}-title`);
    };
    const by = el("input", { type: "text", autocomplete: "off", maxlength: 120, value: bench.typed.by, on: { input: () => void (bench.typed.by = by.value) } });
    return el("section", { class: "train-test", "aria-labelledby": `${name}-title` },
      el("h4", { id: `${name}-title`, tabindex: "-1", text: test.title }), el("p", { class: "note", text: standing(stood) }),
      prose(test.do), givens(calculator, trainJudge.draw(test, bench.seed)),
      bench.came ? [verdict(lesson, test, bench), button("Try it again", again, { id: `${name}-again` })] : [
        el("div", { class: "job-fields" }, (test.measured || []).map((/** @type {any} */ one) => measured(name, calculator, one, bench)),
          Object.keys(test.compare || {}).map((id) => worked(name, calculator, id, bench)), labelled(`${name}-by`, "Who looked on", by, "The trainer's name; it may be left empty.")),
        button("Judge it", () => judge(desk, lesson, test, bench), { id: `${name}-judge`, class: "primary" }),
      ]);
  }

  seambook.trainBench = { block, standing, givens, prose, valueOf, fresh };
})();
