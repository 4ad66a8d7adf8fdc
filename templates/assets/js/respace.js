/**
 * A seam worked out for the lengths measured on the car. A field at each segment begins with the record's length; what is
 * typed works every plan of the segment out again, and stands nowhere but in the address. What cannot be used is said
 * beside the field, and the last good plan stays. Drawings follow by the event "seambook:respaced", whose detail holds
 * segment, method and row. Needs plan.js, planned.js, entries.js and links.js.
 */

/**
 * @typedef {{number: number, block: HTMLElement, form: HTMLFormElement, entry: Entry, input: Input,
 *   facts: Record<string, any>, isShown: boolean, length: number, texts: string[]}} Measured
 *   `isShown` once the block was told again, since the page then follows the switch of units itself.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook || {};
  const { exact, fromBase, plain, toFloat } = seambook.numbers || {};
  const FIGURES = 5;
  const KEPT = "The plan below is still the last good one.";

  // Without the page.

  /** The length given, in base units; the record's own where its text was left. @param {Measured} one @returns {Taken | Fault} */
  function lengthOf({ entry, input, facts }) {
    return isLeft({ entry, input }) ? { value: facts.length } : seambook.formula.read(input, seambook.entries.textOf(entry));
  }

  /** Whether the field stands for the record's own length. @param {{entry: Entry, input: Input}} one */
  function isLeft({ entry, input }) {
    return seambook.entries.textOf(entry).trim() === input.start;
  }

  /** @param {Fault} fault @param {Measured} one */
  function explain(fault, { entry, input }) {
    const { field, unit } = entry;
    const shown = input.units.find((other) => other.name === unit);
    const told = shown ? fault.do.replace(input.admits, () => shown.admits || input.admits) : fault.do;
    const typed = field.value.trim();
    if (!typed) return `Nothing is written here: ${told}. ${KEPT}`;
    const message = fault.message.replace(/^[a-z_0-9]+: /, "").replace(`"${seambook.entries.textOf(entry)}"`, () => `"${typed}"`);
    return `${message}; ${told}. ${KEPT}`;
  }

  // On the page.

  /** @param {Measured} one @param {Fault | null} fault */
  function showFault(one, fault) {
    const { field } = one.entry;
    const place = document.getElementById(`ask_${one.input.id}-fault`);
    if (fault) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
    if (!place) return;
    place.hidden = !fault;
    place.textContent = fault ? explain(fault, one) : "";
  }

  /** @param {Measured} one */
  function blocksOf({ block }) {
    return Array.from(block.querySelectorAll(":scope > .planned")).filter((found) => found instanceof HTMLElement);
  }

  /** Work every method out for a length. @param {Measured} one @param {number} length */
  function respace(one, length) {
    const facts = { ...one.facts, length };
    one.length = length;
    one.isShown = true;
    for (const block of blocksOf(one)) {
      const place = /** @type {HTMLElement} */ (block);
      const method = place.dataset.method || "";
      const plan = seambook.plan.work(seambook.methods[method], facts);
      seambook.planned.show(place, plan);
      const isStopped = !!place.querySelector(".verdict-stop");
      const detail = { segment: one.number, method, row: plan.row, isStopped };
      document.dispatchEvent(new CustomEvent("seambook:respaced", { detail }));
    }
  }

  /** The length in the units shown: the record's own as the page was written with it. @param {Measured} one */
  function said({ length, facts, input, entry, texts }) {
    const isOther = seambook.entries.isShown(input.other);
    if (length === facts.length) return texts[seambook.units.system() === seambook.units.first ? 0 : 1];
    const unit = isOther && input.other ? input.other.unit : input.units[0];
    const option = Array.from(entry.choice ? entry.choice.options : []).find(({ value }) => value === unit.name);
    const number = plain(toFloat(fromBase(exact(length), unit)), FIGURES);
    return number + seambook.shown.withBlank(option ? option.textContent || "" : unit.name);
  }

  /** @param {Measured} one */
  function showLength(one) {
    const isMeasured = one.length !== one.facts.length;
    const fact = one.block.querySelector('[data-fact="length"]');
    const number = said(one);
    if (fact) fact.textContent = number;
    one.form.classList.toggle("is-respaced", isMeasured);
    const reset = one.form.querySelector(".respacing-reset");
    if (reset instanceof HTMLElement) reset.hidden = !isMeasured && isLeft(one);
    const told = one.form.querySelector(".respacing-said");
    if (told) told.textContent = isMeasured ? `Worked out for ${number}, not for the record's length.` : "";
  }

  /** @param {Measured} one */
  function update(one) {
    const taken = lengthOf(one);
    showFault(one, "value" in taken ? null : taken);
    if (!("value" in taken)) return;
    if (taken.value !== one.length) respace(one, Number(taken.value));
    if (one.isShown) showLength(one);
  }

  const blocks = Array.from(document.querySelectorAll(".plan[data-seam]")).filter((one) => one instanceof HTMLElement);
  const seam = blocks.length && (seambook.seams || {})[/** @type {HTMLElement} */ (blocks[0]).dataset.seam || ""];
  if (seam && seambook.plan && seambook.entries) start(/** @type {HTMLElement[]} */ (blocks), seam);

  /** @param {HTMLElement[]} found @param {any} known @returns {Measured[]} */
  function measuredOf(found, known) {
    return found.flatMap((block) => {
      const form = block.querySelector(".respacing");
      const number = Number(block.dataset.segment);
      const { facts, input } = known.segments[number - 1];
      if (!(form instanceof HTMLFormElement) || !input) return [];
      const [entry] = seambook.entries.entriesOf(form, { inputs: [input] });
      const fact = block.querySelector('[data-fact="length"]');
      const other = fact && fact.querySelector("[data-q]");
      const shown = (fact && fact.textContent) || "";
      // The page may be shown in the other units already, where its two texts have changed places.
      const both = [shown, (other && other.getAttribute("data-q")) || shown];
      const texts = seambook.units.system() === seambook.units.first ? both : both.reverse();
      return [{ number, block, form, entry, input, facts, isShown: false, length: facts.length, texts }];
    });
  }

  /** @param {HTMLElement[]} found @param {any} known */
  function start(found, known) {
    const measured = measuredOf(found, known);
    const entries = measured.map(({ entry }) => entry);

    function keep() {
      const changed = measured.filter((one) => !isLeft(one) || one.entry.isSet);
      const fragment = changed.length ? seambook.links.fragmentOf(changed.map(({ entry }) => entry), []) : "";
      seambook.folder.keep(fragment);
    }

    function open() {
      if (window.location.hash.indexOf("#in=") !== 0) return;
      seambook.links.fill(entries, [], window.location.hash);
      measured.forEach(update);
    }

    for (const one of measured) {
      one.form.hidden = false;
      one.form.addEventListener("submit", (event) => event.preventDefault());
      one.form.addEventListener("input", (event) => {
        if (event.target === one.entry.field) seambook.entries.follow(one.entry);
        else seambook.entries.choose(one.entry);
        update(one);
        keep();
      });
      one.form.querySelector(".respacing-reset")?.addEventListener("click", () => {
        Object.assign(one.entry, { unit: seambook.entries.unitOfSystem(one.entry), isSet: false, before: null });
        seambook.entries.put(one.entry, one.input.start || "");
        seambook.entries.label(one.entry);
        update(one);
        keep();
        one.entry.field.focus();
      });
    }
    window.addEventListener("hashchange", open);
    document.addEventListener("seambook:units", () => {
      seambook.entries.retell(entries);
      measured.filter(({ isShown }) => isShown).forEach((one) => {
        respace(one, one.length);
        showLength(one);
      });
    });
    open();
  }
})();
