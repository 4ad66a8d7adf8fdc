/**
 * What a job's file must be like, by its schema (`assets/job/form.js`, made from the builder's type of a job): the first
 * thing that is wrong with its place, and the keys that nobody knows. Knows no page.
 */
(function () {
  "use strict";

  /** @typedef {any} Form a part of the schema */
  /** @typedef {{place: string, say: string}} Fault */

  const DEEPEST = 40;
  const MOST = 400000;
  const REFUSED = ["__proto__", "constructor", "prototype"];
  const LONGEST_QUOTED = 40;
  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** @param {unknown} value @returns {value is Record<string, any>} */
  function isMapping(value) {
    return typeof value === "object" && value !== null && !Array.isArray(value);
  }

  /** @param {Record<string, any>} mapping @param {string} key */
  function has(mapping, key) {
    return Object.prototype.hasOwnProperty.call(mapping, key);
  }

  /**
   * Find what makes a value a danger to whoever reads it: too deep, too much, or a key that is no data.
   * @param {unknown} top @returns {Fault | null}
   */
  function danger(top) {
    /** @type {Array<[unknown, string, number]>} */
    const waiting = [[top, "", 0]];
    let count = 0;
    for (let one = waiting.pop(); one; one = waiting.pop()) {
      const [value, place, depth] = one;
      count += 1;
      if (depth > DEEPEST) return { place, say: `lists and mappings stand in one another more than ${DEEPEST} deep` };
      if (count > MOST) return { place, say: `it holds more than ${MOST} values` };
      if (typeof value !== "object" || value === null) continue;
      for (const [key, below] of Object.entries(value)) {
        const at = within(place, Array.isArray(value) ? Number(key) : key);
        if (REFUSED.includes(key)) return { place: at, say: `“${key}” cannot be the name of anything in a job` };
        waiting.push([below, at, depth + 1]);
      }
    }
    return null;
  }

  /** @param {string} place @param {string | number} key */
  function within(place, key) {
    if (typeof key === "number") return `${place}[${key + 1}]`;
    const name = key.length > LONGEST_QUOTED ? `${key.slice(0, LONGEST_QUOTED)}…` : key;
    return place ? `${place} › ${name}` : name;
  }

  /**
   * Find the first thing in a value that its form does not admit.
   * @param {Form} form @param {unknown} value @param {string} [place] @returns {Fault | null}
   */
  function fault(form, value, place = "") {
    if (form.anyOf) return value === null || value === "" || value === undefined ? null : fault(form.anyOf[1], value, place);
    const wanted = wantedBy(form);
    if (!fits(form, value)) return { place, say: `${wanted} belongs there, not ${told(value)}` };
    if (form.type === "array") return inList(form, /** @type {any} */ (value), place);
    return form.type === "object" ? inMapping(form, /** @type {any} */ (value), place) : null;
  }

  /** @param {Form} form @param {unknown[]} list @param {string} place @returns {Fault | null} */
  function inList(form, list, place) {
    for (let at = 0; at < list.length; at += 1) {
      const found = fault(form.items, list[at], within(place, at));
      if (found) return found;
    }
    return null;
  }

  /** @param {Form} form @param {Record<string, any>} mapping @param {string} place @returns {Fault | null} */
  function inMapping(form, mapping, place) {
    for (const key of form.required || []) {
      if (!has(mapping, key)) return { place: within(place, key), say: "it is missing" };
    }
    for (const [key, value] of Object.entries(mapping)) {
      const at = within(place, key);
      if (form.properties) {
        const found = has(form.properties, key) ? fault(form.properties[key], value, at) : null;
        if (found) return found;
      } else {
        const found = fault(form.propertyNames, key, at) ? { place: at, say: "nothing can have such a name" } : null;
        const below = found || fault(form.additionalProperties, value, at);
        if (below) return below;
      }
    }
    return null;
  }

  /** Whether a value by itself is what its form asks for. @param {Form} form @param {any} value @returns {boolean} */
  function fits(form, value) {
    if (form.enum) return form.enum.includes(value);
    if (form.type === "object") return isMapping(value) && Object.keys(value).length <= (form.maxProperties || MOST);
    if (form.type === "array") return Array.isArray(value) && value.length <= form.maxItems;
    if (form.type === "boolean") return typeof value === "boolean";
    if (form.type === "string") {
      if (typeof value !== "string" || (form.maxLength && value.length > form.maxLength)) return false;
      return !form.pattern || new RegExp(form.pattern).test(value);
    }
    if (typeof value !== "number" || !Number.isFinite(value)) return false;
    if (form.type === "integer" && !Number.isInteger(value)) return false;
    return !(form.minimum !== undefined && value < form.minimum) && !(form.maximum !== undefined && value > form.maximum);
  }

  /** What a form asks for, in words. @param {Form} form @returns {string} */
  function wantedBy(form) {
    if (form.enum) return `one of ${form.enum.map(told).join(", ")}`;
    if (form.type === "object") return "a mapping of names to values";
    if (form.type === "array") return form.maxItems === undefined ? "a list" : `a list of at most ${form.maxItems}`;
    if (form.type === "boolean") return "true or false";
    if (form.type === "string") {
      const long = form.maxLength ? ` of at most ${form.maxLength} letters` : "";
      return `${form.pattern ? "a text of another form" : "a text"}${long}`;
    }
    const number = form.type === "integer" ? "a whole number" : "a number";
    return form.maximum === undefined ? number : `${number} from ${form.minimum} to ${form.maximum}`;
  }

  /** @param {unknown} value @returns {string} */
  function told(value) {
    if (value === null || value === undefined) return "nothing";
    if (Array.isArray(value)) return "a list";
    if (typeof value === "object") return "a mapping";
    const text = String(value);
    return `“${text.length > LONGEST_QUOTED ? `${text.slice(0, LONGEST_QUOTED)}…` : text}”`;
  }

  /**
   * The places of keys that a form does not know. @param {Form} form @param {unknown} value @param {string} [place]
   * @returns {string[]}
   */
  function unknown(form, value, place = "") {
    if (form.anyOf) return unknown(form.anyOf[1], value, place);
    if (Array.isArray(value)) return form.items ? value.flatMap((one, at) => unknown(form.items, one, within(place, at))) : [];
    if (!isMapping(value) || form.type !== "object") return [];
    return Object.entries(value).flatMap(([key, below]) => {
      const at = within(place, key);
      if (!form.properties) return unknown(form.additionalProperties, below, at);
      return has(form.properties, key) ? unknown(form.properties[key], below, at) : [at];
    });
  }

  seambook.jobCheck = { danger, fault, unknown, isMapping, has };
})();
