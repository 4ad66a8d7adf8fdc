/**
 * Of making a job: when, by how many, in which places and in what air; and what is paid.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, labelled } = seambook.dom;
  const { DAMP } = seambook.jobMake;
  /** @type {(id: string, label: string, what: any, take: (value: any) => void) => any} */
  const number = seambook.jobMake.number;
  /** @type {(name: string, label: string, options: Array<[string, string]>, chosen: string, take: (value: string) => void) => any} */
  const oneOf = seambook.jobMake.oneOf;
  const DAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
  const COUNTS = ["1", "2", "3", "4"];
  const [MOST_PLACES, MOST_PRICE] = [99, 10000000];

  /** @param {any} state */
  function start(state) {
    const field = el("input", { type: "datetime-local", value: state.job.start.slice(0, 16), on: { change: () => {
      if (field.value) state.change((/** @type {any} */ job) => (job.start = field.value));
    } } });
    return labelled("job_start", "Begins", field);
  }

  /** @param {any} state @param {"opens" | "closes"} key @param {string} label */
  function hour(state, key, label) {
    const fault = el("p", { class: "fault", hidden: true, text: "The shop opens before it closes." });
    const field = el("input", { type: "time", value: state.job.hours[key], on: { change: () => {
      const hours = { ...state.job.hours, [key]: field.value };
      const isGood = !!field.value && hours.opens < hours.closes;
      fault.hidden = isGood;
      field.setAttribute("aria-invalid", String(!isGood));
      if (isGood) state.change((/** @type {any} */ job) => (job.hours[key] = field.value));
    } } });
    const made = labelled(`job_${key}`, label, field);
    made.append(fault);
    return made;
  }

  /** @param {any} state */
  function days(state) {
    const { days: chosen } = state.job.hours;
    const note = el("p", { class: "note", text: "Public holidays are not known here: a plan that runs over one is later by it." });
    return el("fieldset", { class: "job-field job-marks job-wide" }, el("legend", { text: "Working days" }), el("div", { class: "job-row" }, DAYS.map((text, at) =>
      el("label", {}, el("input", { type: "checkbox", id: `job_day-${at + 1}`, checked: chosen.includes(at + 1), on: { change: (/** @type {any} */ event) => {
        const left = DAYS.map((_, one) => one + 1).filter((one) => (one === at + 1 ? event.target.checked : chosen.includes(one)));
        if (left.length) state.change((/** @type {any} */ job) => (job.hours.days = left));
        else {
          event.target.checked = true;
          state.say("One working day is needed at least.");
        }
      } } }), el("span", { text })))), note);
  }

  /** What each place is, folded: the names alone do not say it to somebody new. @param {any} state */
  function placesSaid({ book }) {
    const known = Object.values((book.planning || {}).places || {}).filter((/** @type {any} */ one) => one.means);
    return known.length ? el("details", { class: "job-more", id: "job_places-said" }, el("summary", { text: "What each of these is" }),
      el("dl", { class: "rows" }, known.map((/** @type {any} */ one) => el("div", {}, el("dt", { text: one.say }), el("dd", { text: one.means }))))) : null;
  }

  /** @param {any} state */
  function places(state) {
    const known = (state.book.planning || {}).places || {};
    return Object.entries(known).map(([id, place]) => {
      const { say, count } = /** @type {any} */ (place);
      const own = state.job.places[id];
      return number(`job_place-${id}`, say, { value: own === undefined ? count : own, least: 0, most: MOST_PLACES }, (value) =>
        state.change((/** @type {any} */ job) => (job.places[id] = value), DAMP));
    });
  }

  /** @param {any} state */
  function rust(state) {
    const known = Object.entries((state.book.planning || {}).rust || {});
    if (!known.length) return null;
    const options = known.map(([id, one]) => [id, /** @type {any} */ (one).say || id]);
    const made = oneOf("job_rust", "How rusty it is", /** @type {any} */ (options), state.job.rust, (value) =>
      state.change((/** @type {any} */ job) => (job.rust = value)));
    const { means } = /** @type {any} */ (Object.fromEntries(known)[state.job.rust] || {});
    if (means) made.append(el("p", { class: "note", text: means }));
    made.classList.add("job-wide");
    return made;
  }

  /** @param {any} state @returns {any} */
  function time(state) {
    const { climate, hands } = state.job;
    const held = places(state);
    return el("section", { class: "block job-part", "aria-labelledby": "job_part-time" },
      el("h3", { id: "job_part-time", text: "4. When and with whom" }),
      el("div", { class: "job-fields" }, start(state), hour(state, "opens", "Shop opens"), hour(state, "closes", "Shop closes"), days(state),
        oneOf("job_hands", "Technicians on this car", COUNTS.map((one) => /** @type {[string, string]} */ ([one, one])), String(hands), (value) =>
          state.change((/** @type {any} */ job) => (job.hands = Number(value)))), rust(state),
        number("job_temperature", "Shop temperature", { value: climate.temperature, least: -40, most: 60, step: 0.5, unit: "°C" }, (value) =>
          state.change((/** @type {any} */ job) => (job.climate.temperature = value), DAMP)),
        number("job_humidity", "Humidity", { value: climate.humidity, least: 0, most: 100, step: 0.5, unit: "%" }, (value) =>
          state.change((/** @type {any} */ job) => (job.climate.humidity = value), DAMP))),
      held.length ? [el("h4", { text: "How many of each are free for this car" }), placesSaid(state), el("div", { class: "job-fields job-small" }, held)] : null);
  }

  /** Supplies of the procedures that are chosen and loaded. @param {any} state @returns {Array<[string, string]>} id and title */
  function supplies(state) {
    const { job, book, library } = state;
    const ids = job.runs.flatMap((/** @type {any} */ run) => (library.procedures[run.procedure] || {}).supplies || []);
    const all = Array.from(new Set([...ids, ...Object.keys(job.prices.supplies)]));
    const named = all.map((id) => /** @type {[string, string]} */ ([id, book.supplies[id] ? book.supplies[id].title : id]));
    return named.sort((one, other) => (one[1] < other[1] ? -1 : 1));
  }

  /** @param {any} state @returns {any} */
  function prices(state) {
    const { currency, labour, supplies: known } = state.job.prices;
    const money = el("input", { type: "text", maxlength: 12, value: currency, autocomplete: "off", on: { input: () =>
      state.change((/** @type {any} */ job) => (job.prices.currency = money.value), DAMP) } });
    return el("section", { class: "block job-part", "aria-labelledby": "job_part-prices" },
      el("h3", { id: "job_part-prices", text: "5. Prices, if you want them" }),
      el("details", { id: "job_prices" }, el("summary", { text: "Write what is paid" }),
        el("div", { class: "job-fields" }, labelled("job_currency", "Currency", money),
          number("job_labour", "Labour, for an hour", { value: labour, least: 0, most: MOST_PRICE, step: 0.01, isFree: true }, (value) =>
            state.change((/** @type {any} */ job) => (job.prices.labour = value), DAMP))),
        el("h4", { text: "Supplies, for a pack" }),
        el("div", { class: "job-fields job-small" }, supplies(state).map(([id, title]) =>
          number(`job_price-${id}`, title, { value: id in known ? known[id] : null, least: 0, most: MOST_PRICE, step: 0.01, isFree: true }, (value) =>
            state.change((/** @type {any} */ job) => {
              if (value === null) delete job.prices.supplies[id];
              else job.prices.supplies[id] = value;
            }, DAMP))))));
  }

  Object.assign(seambook.jobMake, { time, prices });
})();
