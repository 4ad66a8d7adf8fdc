/* Tells that a page's review is overdue, by this device's clock; the page itself says the day. */
(function () {
  "use strict";

  /**
   * The day as people write it on this device's calendar, year first, so that days compare as texts.
   * @param {Date} now
   */
  function today(now) {
    const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  }

  const due = document.querySelector("time[data-late]");
  const sheet = document.getElementById("page_content");
  if (!(due instanceof HTMLTimeElement) || !sheet || today(new Date()) <= due.dateTime) return;
  const told = document.createElement("p");
  told.className = "banner";
  told.setAttribute("role", "note");
  told.textContent = due.dataset.late || "";
  sheet.before(told);
})();
