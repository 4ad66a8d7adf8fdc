/**
 * A calculator's inputs in its address, `#in=length:1060~mm,...`: read, and told where a part cannot be used; and
 * written in the unit chosen for it. Where the number cannot be told there to its last digit it stays as it was given,
 * and the chosen unit stands behind its own: `1060~mm~inch`. An answer's chosen
 * unit stands without a number: `margin:~delta_degF`. Needs entries.js and shown.js.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const LONGEST_QUOTED = 40;

  // Without the page.

  /**
   * @param {string} hash
   * @returns {{given: Array<[string, string]>, broken: string[]}} what is given, by id, and parts that say nothing
   */
  function read(hash) {
    /** @type {Array<[string, string]>} */
    const given = [];
    /** @type {string[]} */
    const broken = [];
    if (hash.indexOf("#in=") !== 0) return { given, broken };
    for (const part of partsOf(hash.slice(4))) {
      const colon = part.indexOf(":");
      try {
        if (colon < 1) throw new Error("no input is named");
        given.push([part.slice(0, colon), decodeURIComponent(part.slice(colon + 1).replace(/~/g, " "))]);
      } catch {
        broken.push(part);
      }
    }
    return { given, broken };
  }

  /** A comma that parts decimals, where a program has spelled the address out, belongs to the part before it.
   * @param {string} text @returns {string[]} */
  function partsOf(text) {
    /** @type {string[]} */
    const parts = [];
    for (const part of text.split(/,|%2C(?=[a-z_0-9]+:)/i)) {
      if (parts.length && /^[0-9]/.test(part) && !part.includes(":")) parts[parts.length - 1] += `,${part}`;
      else if (part) parts.push(part);
    }
    return parts;
  }

  /** @param {Array<[string, string]>} given */
  function write(given) {
    const parts = given.map(([id, text]) => `${id}:${encodeURIComponent(text).replace(/~/g, "%7E").replace(/%20/g, "~")}`);
    return `#in=${parts.join(",")}`;
  }

  // The fields of the page.

  /** What was given in a field, and the unit its reader chose for it. @param {Entry} entry */
  function textOf(entry) {
    const { input, field, isSet, unit } = entry;
    const text = seambook.entries.textOf(entry).trim();
    const written = seambook.numbers.readWritten(text);
    if (typeof written === "string" && field instanceof HTMLInputElement) return field.value.trim();
    if (!input || !isSet || field instanceof HTMLSelectElement || typeof written === "string") return text;
    if (written.unit && !input.units.some((one) => one.name === written.unit)) return text;
    const stands = written.unit || input.unit;
    if (stands === unit && stands !== input.unit) return text;
    const converted = `${field.value.trim()} ${unit}`;
    const [before, after] = [text, converted].map((one) => seambook.formula.read(input, one).value);
    if (before !== undefined && before === after && unit !== input.unit) return converted;
    return `${written.unit ? text : `${text} ${input.unit}`} ${unit}`;
  }

  /** @param {Entry[]} entries @param {ShownAnswer[]} answers */
  function fragmentOf(entries, answers) {
    const chosen = answers.filter((answer) => answer.isSet);
    return write([
      ...entries.map((entry) => /** @type {[string, string]} */ ([entry.id, textOf(entry)])),
      ...chosen.map((answer) => /** @type {[string, string]} */ ([answer.output.id, ` ${answer.unit}`])),
    ]);
  }

  /** Fill the fields from an address; what cannot be taken is said.
   * @param {Entry[]} entries @param {ShownAnswer[]} answers @param {string} hash @returns {string} */
  function fill(entries, answers, hash) {
    const { given, broken } = read(hash);
    const left = broken.map((part) => `“${quoted(part)}” is no input with its value`);
    for (const [id, text] of given) {
      const entry = entries.find((one) => one.id === id);
      const answer = answers.find((one) => one.output.id === id);
      if (text.startsWith(" ") && answer) {
        if (!seambook.shown.take(answer, text.trim())) left.push(`“${quoted(text.trim())}” is no unit of ${id}`);
      } else if (!entry) {
        left.push(`there is no input “${quoted(id)}”`);
      } else if (!take(entry, text)) {
        left.push(`“${quoted(text)}” is none of the choices of “${id}”`);
      }
    }
    return left.length ? `Part of this link could not be used: ${left.join("; ")}. The rest was taken.` : "";
  }

  /** @param {string} text */
  function quoted(text) {
    return text.length > LONGEST_QUOTED ? `${text.slice(0, LONGEST_QUOTED)}…` : text;
  }

  /** @param {Entry} entry @param {string} text @returns {boolean} */
  function take(entry, text) {
    const { field, input } = entry;
    if (field instanceof HTMLSelectElement) return pick(field, input, text);
    const { unit } = seambook.numbers.readWritten(text);
    const names = (unit || "").split(" ");
    const [stands, chosen] = names.length > 2 ? ["", ""] : names;
    const shown = chosen && seambook.entries.optionOf(entry, chosen);
    const system = seambook.entries.unitOfSystem(entry);
    const own = !input || stands === input.unit ? undefined : seambook.entries.optionOf(entry, stands);
    entry.unit = shown || own || system;
    entry.isSet = entry.unit !== system;
    entry.before = null;
    seambook.entries.put(entry, shown ? text.slice(0, text.lastIndexOf(" ")) : text);
    seambook.entries.label(entry);
    return true;
  }

  /** Choose the option of this id, or of the same quantity. @param {HTMLSelectElement} field
   * @param {Input | undefined} input @param {string} text */
  function pick(field, input, text) {
    const options = Array.from(field.options);
    const value = input && !input.choices ? seambook.formula.read(input, text).value : undefined;
    const found =
      options.find((option) => option.value === text) ||
      options.find((option) => value !== undefined && seambook.formula.read(input, option.value).value === value);
    if (found) field.value = found.value;
    return !!found;
  }

  seambook.links = { read, write, fill, fragmentOf };
})();
