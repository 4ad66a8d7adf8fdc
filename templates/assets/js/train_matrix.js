/**
 * The skills matrix: each skill in a row, each person on this device in a column. A trainer presses a field to give a level; a
 * level whose records were changed since says so. Needs train_given.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, focusOn } = seambook.dom;
  const { trainGiven, trainHand, trainStand, trainWords } = seambook;
  seambook.trainViews = seambook.trainViews || {};
  /** What is open, its form, and the trainer who wrote last. @type {{skill: string, person: string, assessor: string, form: any}} */
  const state = { skill: "", person: "", assessor: "", form: null };

  /** @param {any} book @param {string} id how far a level is, from 1; 0 where it is no more in the book */
  function rank(book, id) {
    return book.levels.findIndex((/** @type {any} */ one) => one.id === id) + 1;
  }

  /** A level as four fields, so many of them filled. @param {any} book @param {string} id */
  function marks(book, id) {
    const count = rank(book, id);
    return el("span", { class: "train-marks", "aria-hidden": "true" }, book.levels.map((/** @type {any} */ _, /** @type {number} */ at) => el("span", { class: at < count ? "is-full" : null })));
  }

  /** @param {any} desk @param {any} skill @param {any} person */
  function cell(desk, skill, person) {
    const { given, changed } = trainStand.atSkill(person, skill);
    const id = `train_cell-${skill.id}-${person.id}`;
    const open = () => {
      Object.assign(state, { skill: skill.id, person: person.id, form: null });
      desk.draw();
      focusOn("train_form-title");
    };
    const said = given ? [
      marks(desk.book, given.level), el("span", { class: "train-level", text: trainWords.level(desk.book, given.level) }),
      el("span", { class: "note", text: `${trainWords.day(given.at)}, ${given.by}` }),
      changed.length ? el("span", { class: "train-again", text: `opened again: ${changed.map((/** @type {any} */ one) => one.say).join(" ")}` }) : null,
    ] : [el("span", { class: "note", text: "no level" })];
    return el("td", { "data-head": person.name }, el("button", { type: "button", class: `train-cell${changed.length ? " is-again" : ""}`, id, on: { click: open } },
      el("span", { class: "unseen", text: `${person.name}, ${skill.title}: ` }), said));
  }

  /** @param {any} desk @param {any[]} people */
  function table(desk, people) {
    const heads = ["Skill", ...people.map(({ name }) => name)];
    return el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Skills matrix" },
      el("table", { class: "wordy train-matrix" },
        el("thead", {}, el("tr", {}, heads.map((text) => el("th", { scope: "col", text })))),
        el("tbody", {}, desk.book.skills.map((/** @type {any} */ skill) => el("tr", {},
          el("th", { scope: "row" }, el("a", { href: trainWords.href(skill.path), text: skill.title }), el("span", { class: "note", text: skill.summary })),
          people.map((person) => cell(desk, skill, person)))))));
  }

  /** A value of a table that other programs read; one that begins as a formula does is told to be text. @param {string} value */
  function quoted(value) {
    return `"${value.replace(/^[=+\-@]/, "'$&").replace(/"/g, '""')}"`;
  }

  /** The matrix for other programs: a line for each level that stands. @param {any} desk @param {any[]} people @returns {string} */
  function csv({ book }, people) {
    const lines = people.flatMap((person) => book.skills.flatMap((/** @type {any} */ skill) => {
      const { given, changed } = trainStand.atSkill(person, skill);
      return given ? [[person.name, skill.title, trainWords.level(book, given.level), given.at.slice(0, 10), given.by, changed.map((/** @type {any} */ one) => one.say).join(" ")]] : [];
    }));
    return [["Person", "Skill", "Level", "Day", "Judged by", "Opened again"], ...lines].map((line) => `${line.map(quoted).join(",")}\r\n`).join("");
  }

  /** What is done with the whole matrix. @param {any} desk @param {any[]} people */
  function ways(desk, people) {
    const save = () => trainHand.give("skills-matrix.csv", `\ufeff${csv(desk, people)}`, "text/csv;charset=utf-8");
    return el("p", { class: "job-buttons only-screen" }, button("Print the matrix", () => window.print(), { id: "train_print" }), button("Save it as a table", save, { id: "train_table" }));
  }

  /** What the levels mean. @param {any} book */
  function key(book) {
    return el("dl", { class: "train-levels" }, book.levels.map((/** @type {any} */ { id, say, means }) => el("div", {}, el("dt", {}, marks(book, id), say), el("dd", { text: means }))));
  }

  /** @param {HTMLElement} place @param {any} desk */
  function draw(place, desk) {
    const people = desk.store.all().flatMap((/** @type {any} */ one) => one.person || []);
    const skill = desk.book.skills.find((/** @type {any} */ one) => one.id === state.skill);
    const person = people.find((/** @type {any} */ one) => one.id === state.person);
    const cellOpen = `train_cell-${state.skill}-${state.person}`;
    const shut = () => {
      Object.assign(state, { skill: "", person: "", form: null });
      window.setTimeout(() => focusOn(cellOpen));
    };
    // What was typed stays where another tab's change draws the page anew.
    if (skill && person) state.form = state.form || trainGiven.form(desk, skill, person, state, shut);
    place.append(...[
      el("h2", { class: "train-title", text: "Skills matrix" }),
      el("p", { class: "note only-screen", text: "A trainer presses a field, chooses the level that was seen, and puts a name to it. What a level rested on is kept with it: where a procedure, rule or calculator changes, the level opens again." }),
      people.length ? null : el("p", { class: "none", text: "There is nobody on this device yet. Write down who practises first." }),
      skill && person ? state.form : null,
      people.length ? table(desk, people) : null, key(desk.book),
      people.length ? ways(desk, people) : null,
    ].filter(Boolean));
  }

  seambook.trainViews.skills = { title: "Skills", draw, style: "train-wide" };
})();
