/**
 * A link that opens the calculator with these values, by a button, where the browser has a clipboard to put it on.
 * Needs links.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const place = document.getElementById("copy_link");
  const button = place && place.querySelector("button");
  const said = place && place.querySelector("span");
  if (!place || !button || !said || !window.navigator.clipboard) return;
  // A link does not carry a table of points, so it would open with the example's.
  if (document.getElementById("points_form")) return;
  /** @type {Answered | null} */
  let now = null;

  document.addEventListener("seambook:answered", (event) => {
    now = /** @type {CustomEvent} */ (event).detail;
    said.textContent = "";
  });
  button.addEventListener("click", () => {
    if (!now) return;
    const address = seambook.folder.here(seambook.links.fragmentOf(now.entries, now.answers));
    window.navigator.clipboard.writeText(address).then(
      () => (said.textContent = "Copied."),
      () => (said.textContent = "The browser did not allow it. The address of this page says the same.")
    );
  });
  place.hidden = false;
})();
