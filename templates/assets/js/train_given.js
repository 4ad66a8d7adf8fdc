/* A level given to somebody for a skill by a trainer, with the day and the trainer's name; and what was given before. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, labelled, focusOn } = seambook.dom;
  const { trainStand, trainWords } = seambook;
  const TAKEN_BACK = "";

  /** @param {any} book @param {string} name @param {string} chosen */
  function levels(book, name, chosen) {
    const all = [...book.levels, { id: TAKEN_BACK, say: "no level", means: "What was given before is taken back." }];
    return el("fieldset", { class: "train-choices", id: "train_level" }, el("legend", { text: name }),
      all.map(({ id, say, means }, at) => el("label", { for: `train_level-${at}` },
        el("input", { type: "radio", name: "train_level", id: `train_level-${at}`, value: id, checked: id === chosen }),
        el("span", {}, el("strong", { text: say }), means ? el("span", { class: "note", text: means }) : null))));
  }

  /** What was given before, the newest first. @param {any} book @param {any[]} all */
  function before(book, all) {
    if (!all.length) return null;
    const line = (/** @type {any} */ one) => `${trainWords.day(one.at)}: ${one.level ? trainWords.level(book, one.level) : "no level"}, by ${one.by}${one.notes ? `. ${one.notes}` : ""}`;
    return el("details", { class: "train-before", id: "train_before" }, el("summary", { text: "Given before" }), el("ul", { class: "list" }, [...all].reverse().map((one) => el("li", { text: line(one) }))));
  }

  /** What is missing in the form, by field. @param {{level: string | null, on: string, by: string}} entry */
  function wrong({ level, on, by }) {
    if (level === null) return { id: "train_level-0", say: "Choose a level." };
    if (!/^[12]\d{3}-[01]\d-[0-3]\d$/.test(on)) return { id: "train_on", say: "Say on which day." };
    if (on > trainWords.now().slice(0, 10)) return { id: "train_on", say: "The day lies ahead. A level is given for what was seen." };
    return by ? null : { id: "train_assessor", say: "Say who judged it." };
  }

  /**
   * The form. @param {any} desk @param {any} skill @param {any} person @param {{assessor: string}} last what stays from one entry to the next
   * @param {() => void} shut
   */
  function form(desk, skill, person, last, shut) {
    const stood = trainStand.atSkill(person, skill);
    const choice = levels(desk.book, "Level", stood.given ? stood.given.level : "?");
    const on = el("input", { type: "date", value: trainWords.now().slice(0, 10), max: trainWords.now().slice(0, 10) });
    const assessor = el("input", { type: "text", autocomplete: "off", maxlength: 120, value: last.assessor });
    const note = el("input", { type: "text", autocomplete: "off", maxlength: 500 });
    const fault = el("p", { class: "fault", role: "alert", hidden: true });
    const take = () => {
      const level = choice.querySelector("input:checked");
      const entry = { level: level ? level.value : null, on: on.value, by: assessor.value.trim() };
      const found = wrong(entry);
      fault.hidden = !found;
      fault.textContent = found ? found.say : "";
      if (found) return focusOn(found.id);
      last.assessor = entry.by;
      shut();
      return void desk.change((/** @type {any} */ one) => {
        const given = { level: entry.level || null, at: `${entry.on}${trainWords.now().slice(10)}`, by: entry.by, notes: note.value.trim() || null, against: trainStand.against(skill.stands_on) };
        one.skills[skill.id] = [...(one.skills[skill.id] || []), given].sort((first, second) => (first.at < second.at ? -1 : first.at > second.at ? 1 : 0));
      }, person);
    };
    return el("section", { class: "train-form", id: "train_form", "aria-labelledby": "train_form-title" },
      el("h2", { id: "train_form-title", tabindex: "-1", text: `${person.name}: ${skill.title}` }),
      el("p", { class: "note" }, skill.summary, " ", el("a", { href: trainWords.href(skill.path), text: "What belongs to it" })),
      stood.changed.length ? el("div", { class: "train-changed" }, el("ul", { class: "list" }, stood.changed.map((/** @type {any} */ { say, path }) => el("li", {}, say, " ", el("a", { href: trainWords.href(path), text: "Look at it" }))))) : null,
      choice, el("div", { class: "job-fields" }, labelled("train_on", "On", on), labelled("train_assessor", "Judged by", assessor), labelled("train_note", "Note", note, "It may be left empty.")), fault,
      el("p", { class: "job-buttons" }, button("Write it down", take, { id: "train_given", class: "primary" }), button("Leave it", () => {
        shut();
        desk.draw();
      }, { id: "train_leave" })), before(desk.book, stood.all));
  }

  seambook.trainGiven = { form };
})();
