/**
 * The cards in which points are typed in: their fields in the units that are shown, and the points that they hold. What
 * was given is kept behind a number that stands there converted, so switching back and forth changes nothing.
 * Needs point_rows.js and units.js.
 */

/**
 * @typedef {{field: HTMLInputElement, kept: {value: number, shown: string} | null}} PlaceCell
 * @typedef {{item: HTMLElement, name: HTMLInputElement, cells: PlaceCell[], sound: HTMLInputElement}} Card
 *   `cells`: three of where the point should be, three of where it was measured.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook || {};
  const [NAME, FIRST] = [0, 1];
  const EMPTY = "nothing is written here";

  // Numbers in the units that are shown.

  /** @param {PointTable} table */
  function isOther(table) {
    return !!table.other && table.other.system === seambook.units.system();
  }

  /** The unit of a number that is typed bare. @param {PointTable} table @returns {Unit} */
  function shownUnit(table) {
    return table.other && isOther(table) ? table.other.unit : table.unit;
  }

  /** Write a value as it would be typed, as fine as deviations are shown.
   * @param {PointTable} table @param {number} value In the table's own unit. */
  function written(table, value) {
    if (!isOther(table) || !table.other) return String(value);
    const { exact, fixed, fromBase, toBase, toFloat } = seambook.numbers;
    const number = toFloat(fromBase(toBase(exact(value), table.unit), table.other.unit));
    const text = fixed(number, table.other.digits);
    return text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
  }

  /** What a cell holds, as text that can be read whatever unit is shown. @param {PlaceCell} cell @param {PointTable} table */
  function textOf({ field, kept }, table) {
    return kept && field.value === kept.shown ? `${kept.value} ${table.unit.name}` : field.value.trim();
  }

  /** @param {PlaceCell} cell @param {PointTable} table @param {number} value */
  function tell(cell, table, value) {
    cell.kept = { value: value, shown: written(table, value) };
    cell.field.value = cell.kept.shown;
  }

  // Cards.

  /** @param {HTMLElement} item @param {string} part @returns {HTMLInputElement[]} */
  function fieldsOf(item, part) {
    return Array.from(item.querySelectorAll(`input[data-cell="${part}"]`));
  }

  /** @param {HTMLElement} item @param {PointTable} table @returns {Card} */
  function cardOf(item, table) {
    const fields = [...fieldsOf(item, "stated"), ...fieldsOf(item, "measured")];
    const card = {
      item: item,
      name: fieldsOf(item, "name")[0],
      sound: fieldsOf(item, "sound")[0],
      cells: fields.map((field) => /** @type {PlaceCell} */ ({ field: field, kept: null })),
    };
    const isOtherFirst = !!table.other && table.other.system === seambook.units.first;
    for (const cell of card.cells) {
      const own = isOtherFirst ? cell.field.dataset.other : cell.field.defaultValue;
      if (own && cell.field.value === cell.field.defaultValue) tell(cell, table, Number(own));
    }
    return card;
  }

  /** Read one card. A card in which nothing is written counts for nothing.
   * @param {Card} card @param {PointTable} table @param {Record<string, number>} first
   * @returns {{point: MeasuredPoint | null, faults: RowFault[], isEmpty: boolean}} */
  function readCard(card, table, first) {
    const name = card.name.value.trim();
    const cells = card.cells.map((cell) => textOf(cell, table));
    if (!name && cells.every((text) => !text)) return { point: null, faults: [], isEmpty: true };
    const unit = shownUnit(table);
    const row = [name, ...cells, card.sound.checked ? table.yes[0] : table.no[0]];
    const read = seambook.pointRows.readCells(row, row.map(() => unit), ",", 0, table, first);
    return { ...read, isEmpty: false };
  }

  /** @param {Card} card @param {PointTable} table @param {RowFault[]} faults */
  function showFaults(card, table, faults) {
    const wrong = faults.filter((one) => one.message !== EMPTY);
    const place = card.item.querySelector(".fault");
    const inputs = [card.name, ...card.cells.map((cell) => cell.field)];
    inputs.forEach((input, at) => {
      if (wrong.some((one) => one.column === table.columns[at])) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
    });
    if (!(place instanceof HTMLElement)) return;
    place.hidden = !faults.length;
    const said = wrong.map((one) => `${labelOf(table, one.column)}: ${one.message}; ${one.do}.`);
    place.textContent = ["Left out until it is complete.", ...said].join(" ");
  }

  /** @param {PointTable} table @param {string} column */
  function labelOf(table, column) {
    const at = table.columns.indexOf(column);
    if (at === NAME) return table.say.name;
    const part = at < FIRST + table.axes.length ? table.say.stated : table.say.measured;
    return `${part}, ${table.axes[(at - FIRST) % table.axes.length]}`;
  }

  /** Read every card, and say on each what is wrong with it. @param {Card[]} cards @param {PointTable} table */
  function readAll(cards, table) {
    /** @type {Record<string, number>} */
    const first = Object.create(null);
    /** @type {MeasuredPoint[]} */
    const points = [];
    let left = 0;
    cards.forEach((card, at) => {
      const { point, faults, isEmpty } = readCard(card, table, first);
      const name = card.name.value.trim();
      if (name && !(name in first)) first[name] = at + 1;
      showFaults(card, table, faults);
      nameButton(card);
      if (point) points.push(point);
      else if (!isEmpty) left += 1;
    });
    return { points, left };
  }

  /** After the units were switched; `before` is the unit that was shown.
   * @param {Card[]} cards @param {PointTable} table @param {Unit} before */
  function retellAll(cards, table, before) {
    for (const cell of cards.flatMap((card) => card.cells)) {
      const text = textOf(cell, table);
      const value = text ? seambook.pointRows.readNumber(text, ",", before, table) : "";
      if (typeof value === "number") tell(cell, table, value);
    }
  }

  /** Its button says which point it takes out. @param {Card} card */
  function nameButton(card) {
    const said = card.item.querySelector(".point-out-name");
    if (said) said.textContent = ` ${card.name.value}`;
  }

  /** A card without anything in it, as the page brings them. @param {Element} item */
  function patternOf(item) {
    const pattern = /** @type {HTMLElement} */ (item.cloneNode(true));
    pattern.querySelectorAll("input").forEach((field) => {
      field.removeAttribute("value");
      field.removeAttribute("checked");
      field.removeAttribute("data-other");
    });
    return pattern;
  }

  /** @param {Card} card @param {PointTable} table @param {MeasuredPoint} point */
  function fill(card, table, point) {
    card.name.value = point.name;
    card.sound.checked = point.sound;
    [...point.stated, ...point.measured].forEach((value, at) => tell(card.cells[at], table, value));
  }

  /** Take the cards of a list in hand. @param {HTMLElement} list @param {PointTable} table */
  function open(list, table) {
    const pattern = patternOf(list.children[0]);
    let cards = Array.from(list.children).map((item) => cardOf(/** @type {HTMLElement} */ (item), table));

    /** @param {MeasuredPoint} [point] */
    function add(point) {
      const card = cardOf(/** @type {HTMLElement} */ (pattern.cloneNode(true)), table);
      if (point) fill(card, table, point);
      card.item.querySelectorAll("button").forEach((button) => (button.hidden = false));
      list.append(card.item);
      cards.push(card);
      nameButton(card);
      return card;
    }

    /** @param {MeasuredPoint[]} points */
    function set(points) {
      cards = [];
      list.replaceChildren();
      points.forEach((point) => add(point));
    }

    /** @param {Element} item */
    function takeOut(item) {
      cards = cards.filter((card) => card.item !== item);
      item.remove();
    }

    return {
      add, set, takeOut,
      read: () => readAll(cards, table),
      retell: (/** @type {Unit} */ before) => retellAll(cards, table, before),
    };
  }

  seambook.pointCards = { open, shownUnit, isOther };
})();
