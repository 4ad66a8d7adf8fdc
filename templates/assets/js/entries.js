/**
 * The fields of a calculator in the units that are shown. What was given is kept behind a number that stands there
 * converted, so that switching back and forth changes nothing and the answer is that of what was given.
 * Needs answers.js and units.js.
 */

/**
 * @typedef {{id: string, field: HTMLInputElement | HTMLSelectElement, isOptional: boolean, input: Input | undefined,
 *   sign: HTMLElement | null, isOther: boolean, kept: {text: string, shown: string, isNamed: boolean} | null}} Entry
 *   `isOther` says that a bare number in the field stands in the input's other unit; `isNamed` that what was given
 *   brought its unit along.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook || {};

  /** Whether the reader is shown this unit in place of the record's own. @param {Other | null | undefined} other */
  function isShown(other) {
    return !!other && other.system === seambook.units.system();
  }

  /** Whether an entry brings its own unit, as `68 degF` does. @param {string} text */
  function hasOwnUnit(text) {
    return /[a-z%\u00b0\u00b5\u03a9]/i.test(text.replace(/[0-9.][eE][+-]?[0-9]/, ""));
  }

  /** @param {HTMLFormElement} form @param {Calculator} calculator @returns {Entry[]} */
  function entriesOf(form, calculator) {
    /** @type {Entry[]} */
    const entries = [];
    form.querySelectorAll(".ask").forEach((ask) => {
      const field = ask.querySelector("input, select");
      if (!(ask instanceof HTMLElement)) return;
      if (!(field instanceof HTMLInputElement || field instanceof HTMLSelectElement)) return;
      const id = ask.dataset.input || "";
      const input = calculator.inputs.find((one) => one.id === id);
      const sign = document.getElementById(`ask_${id}-unit`);
      const entry = { id, field, isOptional: "optional" in ask.dataset, input, sign, isOther: false, kept: null };
      entries.push(entry);
      begin(entry);
    });
    return entries;
  }

  /** A field that nobody has touched stands for the record's own starting value, not for the one it shows rounded.
   * @param {Entry} entry */
  function begin(entry) {
    const { field, input } = entry;
    if (!input || !input.other || !(field instanceof HTMLInputElement)) return;
    const start = input.start === null ? input.otherwise : input.start;
    if (start !== null && field.value === field.defaultValue) tell(entry, start, false);
    else entry.isOther = isShown(input.other);
  }

  /** What was given in a field, for `formula.run`. @param {Entry} entry */
  function textOf(entry) {
    const { field, input, kept } = entry;
    if (kept && field.value === kept.shown) return kept.text;
    if (!input || !(field instanceof HTMLInputElement)) return field.value;
    const text = withName(entry, input);
    const isBare = entry.isOther && input.other && text.trim() && !hasOwnUnit(text);
    return isBare && input.other ? `${text.trim()} ${input.other.unit.name}` : text;
  }

  /** The entry with a unit's name in place of its sign: the page shows signs. @param {Entry} entry @param {Input} input */
  function withName(entry, input) {
    const text = entry.field.value.trim();
    const other = input.other ? input.other.unit.name : input.unit;
    const isNow = isShown(input.other);
    const signs = [
      { sign: entry.sign?.textContent || "", name: isNow ? other : input.unit },
      { sign: entry.sign?.dataset.q || "", name: isNow ? input.unit : other },
    ];
    const found = signs.find(({ sign }) => sign && text.endsWith(sign) && /[0-9.,\s]$/.test(text.slice(0, -sign.length)));
    return found ? `${text.slice(0, -found.sign.length).trim()} ${found.name}` : entry.field.value;
  }

  /**
   * Put what was given into its field, as a number alone in the unit that is shown. Where the reader wrote a unit it
   * stays as it was written, unless it is the record's own and another is shown.
   * @param {Entry} entry @param {string} text @param {boolean} isNamed
   */
  function tell(entry, text, isNamed) {
    const { field, input } = entry;
    if (field instanceof HTMLSelectElement) {
      if (Array.from(field.options).some((option) => option.value === text)) field.value = text;
      return;
    }
    entry.isOther = !!input && isShown(input.other);
    const shown = input && input.other ? numberOf(entry, input, text, isNamed) : null;
    field.value = shown === null ? text : shown;
    entry.kept = shown === null ? null : { text: text, shown: shown, isNamed: isNamed };
  }

  /** @param {Entry} entry @param {Input} input @param {string} text @param {boolean} isNamed @returns {string | null} */
  function numberOf(entry, input, text, isNamed) {
    const { unit } = seambook.numbers.readWritten(text);
    const isAsWritten = unit && isNamed && (unit !== input.unit || !entry.isOther);
    if (isAsWritten) return null;
    return seambook.formula.convert(input, text, entry.isOther && input.other ? input.other.unit.name : input.unit);
  }

  /** After the units were switched. @param {Entry[]} entries */
  function retell(entries) {
    for (const entry of entries) {
      const { field, kept } = entry;
      if (!entry.input?.other || !(field instanceof HTMLInputElement)) continue;
      const typed = field.value;
      const before = kept && typed === kept.shown ? kept : null;
      tell(entry, textOf(entry), before ? before.isNamed : hasOwnUnit(typed));
      if (!entry.kept && !before) field.value = typed;
    }
  }

  seambook.entries = { entriesOf, textOf, tell, retell, hasOwnUnit, isShown };
})();
