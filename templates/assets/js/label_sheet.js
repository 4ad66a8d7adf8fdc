/* A sheet of labels: how many there are across and down, its margins and gaps -> where each label stands, in mm. Pure. */

/**
 * @typedef {"columns" | "rows" | "left" | "right" | "top" | "bottom" | "across" | "down" | "start"} SheetKey
 * @typedef {Record<SheetKey, number>} SheetSettings
 * @typedef {{width: number, height: number, count: number, at: (number: number) => {sheet: number, x: number, y: number}}} LabelPlaces
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** What a reader sets, with the least, the most, and what it begins with. @type {{key: SheetKey, say: string, least: number, most: number, first: number, whole?: boolean}[]} */
  const FIELDS = [
    { key: "columns", say: "Labels across", least: 1, most: 10, first: 3, whole: true },
    { key: "rows", say: "Labels down", least: 1, most: 25, first: 7, whole: true },
    { key: "left", say: "Left margin, mm", least: 0, most: 60, first: 8 },
    { key: "right", say: "Right margin, mm", least: 0, most: 60, first: 8 },
    { key: "top", say: "Top margin, mm", least: 0, most: 60, first: 12 },
    { key: "bottom", say: "Bottom margin, mm", least: 0, most: 60, first: 12 },
    { key: "across", say: "Gap between columns, mm", least: 0, most: 30, first: 2 },
    { key: "down", say: "Gap between rows, mm", least: 0, most: 30, first: 0 },
    { key: "start", say: "First free label on the first sheet", least: 1, most: 250, first: 1, whole: true },
  ];
  /** A label smaller than this holds neither a name that can be read nor a code. */
  const [LEAST_WIDE, LEAST_HIGH] = [25, 12];

  /** @returns {SheetSettings} */
  function first() {
    return /** @type {SheetSettings} */ (Object.fromEntries(FIELDS.map(({ key, first: value }) => [key, value])));
  }

  /** @param {SheetSettings} set @param {[number, number]} size of the paper, in mm @returns {LabelPlaces} */
  function places(set, [wide, high]) {
    const width = (wide - set.left - set.right - set.across * (set.columns - 1)) / set.columns;
    const height = (high - set.top - set.bottom - set.down * (set.rows - 1)) / set.rows;
    const count = set.columns * set.rows;
    const at = (/** @type {number} */ number) => {
      const place = number + set.start - 1;
      const [row, column] = [Math.floor((place % count) / set.columns), place % set.columns];
      return { sheet: Math.floor(place / count), x: set.left + column * (width + set.across), y: set.top + row * (height + set.down) };
    };
    return { width, height, count, at };
  }

  /** What keeps the settings from making a sheet, field by field. @param {SheetSettings} set @param {[number, number]} size @returns {{key: SheetKey, say: string}[]} */
  function faults(set, size) {
    const wrong = FIELDS.filter(({ key, least, most, whole }) => !(set[key] >= least && set[key] <= most) || (whole && !Number.isInteger(set[key])));
    if (wrong.length) return wrong.map(({ key, least, most, whole }) => ({ key, say: `Write a ${whole ? "whole " : ""}number from ${least} to ${most}.` }));
    const { width, height, count } = places(set, size);
    /** @type {{key: SheetKey, say: string}[]} */
    const found = [];
    if (width < LEAST_WIDE) found.push({ key: "columns", say: `Each label would be ${width.toFixed(1)} mm wide; it takes ${LEAST_WIDE} mm. Take fewer columns, or smaller margins.` });
    if (height < LEAST_HIGH) found.push({ key: "rows", say: `Each label would be ${height.toFixed(1)} mm high; it takes ${LEAST_HIGH} mm. Take fewer rows, or smaller margins.` });
    if (set.start > count) found.push({ key: "start", say: `The sheet has ${count} labels.` });
    return found;
  }

  seambook.labelSheet = { FIELDS, first, places, faults };
})();
