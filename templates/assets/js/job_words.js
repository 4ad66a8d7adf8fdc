/* Times, spans and numbers of a job in words, by the clock of the shop. Pure. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
  const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
  const MINUTE = 60000;

  /** @param {number} value */
  function two(value) {
    return String(value).padStart(2, "0");
  }

  /** Midnight of the day, or of so many days after it. @param {number} ms @param {number} [after] */
  function midnight(ms, after) {
    const at = new Date(ms);
    return new Date(at.getFullYear(), at.getMonth(), at.getDate() + (after || 0)).getTime();
  }

  /** The minute of the day that the clock on the wall shows. @param {number} ms */
  function minuteOfDay(ms) {
    const at = new Date(ms);
    return at.getHours() * 60 + at.getMinutes();
  }

  /** Monday is 1, Sunday 7, as the job's hours have it. @param {number} ms */
  function weekday(ms) {
    return new Date(ms).getDay() || 7;
  }

  /** @param {number} ms */
  function day(ms) {
    const at = new Date(ms);
    return `${DAYS[at.getDay()]} ${at.getDate()} ${MONTHS[at.getMonth()]}`;
  }

  /** @param {number} ms */
  function clock(ms) {
    const at = new Date(ms);
    return `${two(at.getHours())}:${two(at.getMinutes())}`;
  }

  /** @param {number} ms */
  function moment(ms) {
    return `${day(ms)}, ${clock(ms)}`;
  }

  /** As the job file writes a moment. @param {number} ms */
  function stamp(ms) {
    const at = new Date(ms);
    return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}T${clock(ms)}`;
  }

  /** What the job file says as a moment, in words; as it stands where it is none. @param {string} text */
  function said(text) {
    const ms = Date.parse(text);
    return Number.isNaN(ms) ? text : `${new Date(ms).getDate()} ${MONTHS[new Date(ms).getMonth()]} ${new Date(ms).getFullYear()}, ${clock(ms)}`;
  }

  /** The minute of the day that "08:30" means. @param {string} text @param {number} otherwise */
  function minuteIn(text, otherwise) {
    const found = /^(\d{1,2}):(\d{2})$/.exec(text || "");
    return found ? Number(found[1]) * 60 + Number(found[2]) : otherwise;
  }

  /** @param {number} minutes */
  function span(minutes) {
    const whole = Math.round(minutes);
    const [hours, rest] = [Math.floor(whole / 60), whole % 60];
    if (!hours) return `${rest} min`;
    return rest ? `${hours} h ${rest} min` : `${hours} h`;
  }

  /** A number as it is read, without a tail of zeros; a true minus sign. @param {number} value @param {number} [digits] */
  function number(value, digits) {
    const text = String(Number(value.toFixed(digits === undefined ? 3 : digits)));
    return text.replace("-", "\u2212");
  }

  /** What was typed as a number, a comma or a point before the fraction; null where it is none. @param {string} text */
  function typed(text) {
    const plain = text.trim().replace(/\u2212/g, "-").replace(",", ".");
    return /^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(plain) ? Number(plain) : null;
  }

  /** @param {number} count @param {string} one @param {string} [more] */
  function counted(count, one, more) {
    return `${count} ${count === 1 ? one : more || `${one}s`}`;
  }

  seambook.jobWords = { MINUTE, midnight, minuteOfDay, weekday, day, clock, moment, stamp, said, minuteIn, span, number, typed, counted };
})();
