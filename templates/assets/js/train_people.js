/* Who practises: chosen from the people on this device, or written down. Needs train_desk.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, labelled, focusOn } = seambook.dom;
  const LONGEST = 120;

  /** @param {string} name */
  function plain(name) {
    return name.trim().replace(/\s+/g, " ").toLocaleLowerCase();
  }

  /** What keeps a name from being taken. @param {any} desk @param {string} name @returns {string} */
  function wrongName(desk, name) {
    if (!name) return "Write a name, as it is to stand on your sheets.";
    const same = desk.store.all().some((/** @type {any} */ one) => one.person && plain(one.person.name) === plain(name));
    return same ? `There is a ${name} on this device. Choose that name, or write yours so that both can be told apart.` : "";
  }

  /** The field for a name that is new here. @param {any} desk @param {string} label @param {(person: any) => void} then */
  function namer(desk, label, then) {
    const field = el("input", { type: "text", autocomplete: "off", maxlength: LONGEST, "data-held": "" });
    const fault = el("p", { class: "fault", id: "train_name-fault", role: "alert", hidden: true });
    const take = () => {
      const name = field.value.trim().replace(/\s+/g, " ");
      fault.textContent = wrongName(desk, name);
      fault.hidden = !fault.textContent;
      field.setAttribute("aria-invalid", String(!fault.hidden));
      if (!fault.hidden) return void field.focus();
      field.value = "";
      return then(desk.begin(name));
    };
    field.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
      if (event.key === "Enter") take();
    });
    return el("div", { class: "train-name" }, labelled("train_name", label, field), button("Take this name", take, { id: "train_name-take" }), fault);
  }

  /** @param {any} desk @param {any[]} people @param {() => void} shut */
  function chooser(desk, people, shut) {
    const known = people.map((person) => el("li", {}, button(person.name, () => {
      shut();
      desk.take(person);
      focusOn("train_who-change");
    }, { id: `train_who-${person.id}`, "aria-pressed": desk.person && desk.person.id === person.id ? "true" : null })));
    return el("div", { class: "train-chooser" },
      known.length ? el("ul", { class: "train-known" }, known) : null,
      namer(desk, known.length ? "Somebody else: name" : "Your name", () => {
        shut();
        desk.draw();
        focusOn("train_who-change");
      }),
      el("p", { class: "note", text: "It stands beside your answers and results, which are kept in this browser, on this device, for this book alone. Several people may share the device." }));
  }

  /** Who practises, with the way to somebody else. @param {any} desk @param {{isChoosing: boolean}} state */
  function block(desk, state) {
    const people = desk.store.all().flatMap((/** @type {any} */ one) => one.person || []);
    const shut = () => void (state.isChoosing = false);
    if (!desk.person) return el("div", { class: "train-who" }, el("p", {}, el("strong", { text: "Who practises?" })), chooser(desk, people, shut));
    const turn = () => {
      state.isChoosing = !state.isChoosing;
      desk.draw();
    };
    return el("div", { class: "train-who" },
      el("p", { class: "train-who-line" }, el("span", {}, el("strong", { text: desk.person.name }), " practises on this device."),
        button("Somebody else", turn, { id: "train_who-change", "aria-expanded": String(state.isChoosing) })),
      state.isChoosing ? chooser(desk, people, shut) : null);
  }

  seambook.trainPeople = { block, namer };
})();
