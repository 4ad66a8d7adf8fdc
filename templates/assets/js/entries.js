/**
 * The fields of a calculator, each in a unit of its own: the one its reader chose for it, else the one that stands for
 * the record's in the system shown. What was given is kept behind a number that stands there converted, so that
 * choosing back gives back what was typed and the answer is that of what was given. Needs answers.js and units.js.
 */

/**
 * @typedef {{id: string, field: HTMLInputElement | HTMLSelectElement, isOptional: boolean, input: Input | undefined,
 *   choice: HTMLSelectElement | null, sign: HTMLElement | null, limits: HTMLElement | null, unit: string,
 *   isSet: boolean, before: {unit: string, isSet: boolean} | null, kept: {text: string, shown: string} | null}} Entry
 *   A bare number in the field stands in `unit`; `isSet` where the reader chose it himself; `before` holds both as they
 *   were before a unit was typed behind the number.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook || {};

  /** Whether the reader is shown this unit in place of the record's own. @param {Other | null | undefined} other */
  function isShown(other) {
    return !!other && other.system === seambook.units.system();
  }

  /** The unit that the system shown asks for. @param {Entry} entry */
  function unitOfSystem({ input }) {
    if (!input) return "";
    return input.other && isShown(input.other) ? input.other.unit.name : input.unit;
  }

  /** Whether an entry brings its own unit, as `68 degF` does. @param {string} text */
  function hasOwnUnit(text) {
    return /[a-z%\u00b0\u00b5\u03a9]/i.test(text.replace(/[0-9.][eE][+-]?[0-9]/, ""));
  }

  /** @param {HTMLFormElement} form @param {Calculator} calculator @returns {Entry[]} */
  function entriesOf(form, calculator) {
    return Array.from(form.querySelectorAll(".ask")).flatMap((ask) => {
      const field = ask.querySelector("input, select");
      if (!(ask instanceof HTMLElement)) return [];
      if (!(field instanceof HTMLInputElement || field instanceof HTMLSelectElement)) return [];
      const id = ask.dataset.input || "";
      const input = calculator.inputs.find((one) => one.id === id);
      const unit = document.getElementById(`ask_${id}-unit`);
      const choice = unit instanceof HTMLSelectElement ? unit : null;
      const limits = choice ? ask.querySelector(".limits") : null;
      /** @type {Entry} */
      const entry = {
        id, field, input, choice, isOptional: "optional" in ask.dataset, sign: choice ? null : unit,
        limits: limits instanceof HTMLElement ? limits : null, unit: "", isSet: false,
        before: null, kept: null,
      };
      begin(entry);
      return [entry];
    });
  }

  /** A field that nobody has touched stands for the record's own starting value, not for the one it shows rounded.
   * @param {Entry} entry */
  function begin(entry) {
    const { field, input } = entry;
    entry.unit = unitOfSystem(entry);
    const start = !input ? null : input.start === null ? input.otherwise : input.start;
    if (start !== null && field instanceof HTMLInputElement && field.value === field.defaultValue) put(entry, start);
    label(entry);
  }

  /** Say beside the field which unit it stands in, and what is admitted in that. @param {Entry} entry */
  function label({ choice, limits, unit }) {
    if (!choice) return;
    choice.value = unit;
    if (limits && choice.selectedOptions[0]) limits.textContent = choice.selectedOptions[0].dataset.limits || "";
  }

  /** What was given in a field, for `formula.run`. @param {Entry} entry */
  function textOf(entry) {
    const { field, input, kept, unit } = entry;
    if (kept && field.value === kept.shown) return kept.text;
    if (!input || !(field instanceof HTMLInputElement)) return field.value;
    const text = withName(entry, input);
    const isBare = unit !== input.unit && text.trim() && !hasOwnUnit(text);
    return isBare ? `${text.trim()} ${unit}` : text;
  }

  /** The entry with a unit's name in place of its sign: the page shows signs. @param {Entry} entry @param {Input} input */
  function withName({ field, choice, sign }, input) {
    const text = field.value.trim();
    const options = choice ? Array.from(choice.options) : [];
    const signs = options.map((option) => ({ sign: option.textContent || "", name: option.value }));
    if (sign) signs.push({ sign: sign.textContent || "", name: input.unit });
    signs.sort((one, other) => other.sign.length - one.sign.length);
    const found = signs.find(({ sign: one }) => one && text.endsWith(one) && /[0-9.,\s]$/.test(text.slice(0, -one.length)));
    return found ? `${text.slice(0, -found.sign.length).trim()} ${found.name}` : field.value;
  }

  /** Show what was given as a number alone in the field's unit; what is no number of any unit stays as it was written.
   * @param {Entry} entry @param {string} given */
  function put(entry, given) {
    const shown = entry.input ? seambook.formula.convert(entry.input, given, entry.unit) : null;
    entry.field.value = shown === null ? given : shown;
    entry.kept = shown === null ? null : { text: given, shown };
  }

  /** Show what stands in a field in another unit; what cannot be used stays as it was typed.
   * @param {Entry} entry @param {string} unit */
  function turn(entry, unit) {
    if (unit === entry.unit || !(entry.field instanceof HTMLInputElement)) return;
    const typed = entry.field.value;
    const given = textOf(entry);
    entry.unit = unit;
    entry.before = null;
    put(entry, given);
    if (!entry.kept) entry.field.value = typed;
  }

  /** The reader chose a unit for this field alone. @param {Entry} entry */
  function choose(entry) {
    if (entry.choice) turn(entry, entry.choice.value);
    entry.isSet = entry.unit !== unitOfSystem(entry);
    label(entry);
  }

  /** A unit that is typed behind the number is chosen as long as it stands there. @param {Entry} entry */
  function follow(entry) {
    const { field, input, choice, before } = entry;
    if (!input || !choice) return;
    const { unit } = hasOwnUnit(field.value) ? seambook.numbers.readWritten(withName(entry, input)) : { unit: "" };
    const found = unit && optionOf(entry, unit);
    if (found) {
      entry.before = before || { unit: entry.unit, isSet: entry.isSet };
      entry.unit = found;
      entry.isSet = found !== unitOfSystem(entry);
    } else if (before) {
      Object.assign(entry, before, { before: null });
    }
    label(entry);
  }

  /** The unit of this name as the field offers it, under whatever name. @param {Entry} entry @param {string} name */
  function optionOf({ input, choice }, name) {
    const unit = input && input.units.find((one) => one.name === name);
    const alike = !unit || !input ? [] : input.units.filter((one) => one.exact.join() === unit.exact.join());
    const names = choice ? Array.from(choice.options, (option) => option.value) : [];
    return [name, ...alike.map((one) => one.name)].find((one) => names.includes(one));
  }

  /** After the units of the book were switched: fields whose unit the reader chose keep it. @param {Entry[]} entries */
  function retell(entries) {
    for (const entry of entries) {
      if (!entry.isSet) turn(entry, unitOfSystem(entry));
      label(entry);
    }
  }

  seambook.entries = { entriesOf, textOf, put, choose, follow, retell, label, optionOf, unitOfSystem, isShown };
})();
