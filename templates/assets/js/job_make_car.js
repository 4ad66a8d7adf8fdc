/**
 * Of making a job: whose car it is, and what it is called by. Also the fields that its other parts are made of.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, labelled } = seambook.dom;
  const DAMP = { redraw: false };

  /**
   * A text of the job, saved as it is typed.
   * @param {any} state @param {string} key @param {string} label @param {{note?: string, most?: number, long?: boolean}} [how]
   */
  function words(state, key, label, how = {}) {
    const given = {
      value: state.job[key], maxlength: how.most || 120, autocomplete: "off", rows: how.long ? 3 : null, type: how.long ? null : "text",
      on: { input: (/** @type {any} */ event) => state.change((/** @type {any} */ job) => (job[key] = event.target.value), DAMP) },
    };
    return labelled(`job_${key}`, label, el(how.long ? "textarea" : "input", given), how.note);
  }

  /**
   * A number with its limits; what lies outside is told and not taken.
   * @param {string} id @param {string} label @param {{value: number | null, least: number, most: number, step?: number, unit?: string, isFree?: boolean}} what
   * @param {(value: number | null) => void} take
   */
  function number(id, label, { value, least, most, step = 1, unit = "", isFree = false }, take) {
    const fault = el("p", { class: "fault", id: `${id}-fault`, hidden: true });
    const field = el("input", {
      type: "number", inputmode: "decimal", min: least, max: most, step: "any", value: value === null ? "" : String(value), "data-step": step,
      on: { input: () => {
        const text = field.value.trim();
        const found = field.valueAsNumber;
        const isGood = text ? found >= least && found <= most && (step !== 1 || Number.isInteger(found)) : isFree && !field.validity.badInput;
        fault.textContent = isGood ? "" : `Write ${step === 1 ? "a whole number" : "a number"} from ${least} to ${most}.`;
        fault.hidden = isGood;
        field.setAttribute("aria-invalid", String(!isGood));
        if (isGood) take(text ? found : null);
      } },
    });
    field.id = id;
    field.setAttribute("aria-describedby", fault.id);
    const entry = unit ? el("span", { class: "entry" }, field, el("span", { class: "unit", text: unit })) : field;
    return el("div", { class: "job-field" }, el("label", { for: id, text: label }), entry, fault);
  }

  /**
   * One of several, each to be pressed. @param {string} name @param {string} label @param {Array<[string, string]>} options value and label
   * @param {string} chosen @param {(value: string) => void} take
   */
  function oneOf(name, label, options, chosen, take) {
    return el("fieldset", { class: "job-field job-marks" }, el("legend", { text: label }), el("div", { class: "job-row" }, options.map(([value, text]) =>
      el("label", {}, el("input", { type: "radio", name, id: `${name}-${value}`, value, checked: value === chosen, on: { change: () => take(value) } }), el("span", { text })))));
  }

  /** @param {any} state */
  function vehicle(state) {
    const { book, job } = state;
    const known = book.vehicles.some((/** @type {any} */ one) => one.id === job.vehicle);
    const gone = job.vehicle && !known ? [el("option", { value: job.vehicle, selected: true, text: `${job.vehicle} (no longer in this book)` })] : [];
    const field = el("select", { on: { change: () => state.change((/** @type {any} */ one) => (one.vehicle = field.value)) } },
      el("option", { value: "", selected: !job.vehicle, text: "None of these" }),
      gone, book.vehicles.map((/** @type {any} */ one) => el("option", { value: one.id, selected: one.id === job.vehicle, text: one.title })));
    return labelled("job_vehicle", "Vehicle", field, "The book knows these; what it says of panels fits them.");
  }

  /** @param {any} state @returns {any} */
  function section(state) {
    return el("section", { class: "block job-part", "aria-labelledby": "job_part-car" },
      el("h3", { id: "job_part-car", text: "1. The car" }),
      el("div", { class: "job-fields" },
        words(state, "number", "Job number", { note: "Your shop’s own." }),
        words(state, "car", "Car", { note: "Plate, colour, what it is known by.", most: 1000 }),
        vehicle(state),
        words(state, "title", "What the job is", { note: "In a few words." }),
        words(state, "customer", "Customer"),
        words(state, "notes", "Notes", { most: 20000, long: true })));
  }

  seambook.jobMake = { car: section, number, oneOf, DAMP };
})();
