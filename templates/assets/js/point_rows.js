/**
 * A table of points as text: its cells, its points, every fault with its line and column; and points back to text.
 * Needs numbers.js; touches no page. The builder's `formula/points/cells.py` and `formula/points/rows.py` do the same.
 */

/**
 * @typedef {{unit: Unit, units: Unit[], other: Other | null, digits: number, mirror: number | null, columns: string[],
 *   yes: string[], no: string[], tolerance: string, leastBreadth: number, refuse: Record<string, string>,
 *   verdicts: Record<string, string>, axes: string[], say: Record<string, string>, counts: string[], lengths: string[]}} PointTable
 *   `columns`: the name, three of where a point should be, three of where it was measured, and whether it is sound.
 * @typedef {[number, number, number]} Place
 * @typedef {{name: string, stated: Place, measured: Place, sound: boolean}} MeasuredPoint
 * @typedef {{line: number, column: string, message: string, do: string}} RowFault
 * @typedef {{number: number, cells: string[]}} Line
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { readWritten, toFloat } = seambook.numbers;
  const MARKS = [";", "\t", ","];
  const [NAME, FIRST, PAST, SOUND] = [0, 1, 7, 7];

  // Cells.

  /** Part one line. Within quotes the mark is a character as any other, and two quotes are one.
   * @param {string} row @param {string} mark */
  function cellsOf(row, mark) {
    const cells = [];
    let cell = "";
    let quoted = false;
    for (let at = 0; at < row.length; at += 1) {
      const sign = row[at];
      if (sign === '"' && quoted && row[at + 1] === '"') {
        cell += '"';
        at += 1;
      } else if (sign === '"' && (quoted || !cell.trim())) {
        quoted = !quoted;
      } else if (sign === mark && !quoted) {
        cells.push(cell.trim());
        cell = "";
      } else {
        cell += sign;
      }
    }
    return [...cells, cell.trim()];
  }

  /** @param {string} text @returns {{mark: string, lines: Line[]}} */
  function cut(text) {
    const rows = text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n").split("\n");
    const filled = rows.map((row, at) => ({ number: at + 1, row: row })).filter(({ row }) => row.trim());
    const mark = MARKS.find((one) => filled.length && filled[0].row.includes(one)) || ",";
    const lines = filled.map(({ number, row }) => ({ number: number, cells: cellsOf(row, mark) }));
    return { mark: mark, lines: lines.filter((line) => line.cells.some(Boolean)) };
  }

  // The head.

  /** @param {string} name */
  function plainName(name) {
    return name.trim().replace(/[\s_]+/g, "_").toLowerCase();
  }

  /** @param {number} line @param {string} column @param {string} message @param {string} todo @returns {RowFault} */
  function fault(line, column, message, todo) {
    return { line: line, column: column, message: message, do: todo };
  }

  /** @param {Line} line @param {PointTable} table @param {Unit} own */
  function readHead(line, table, own) {
    /** @type {Record<string, {at: number, unit: Unit}>} */
    const columns = Object.create(null);
    const faults = [];
    for (let at = 0; at < line.cells.length; at += 1) {
      const [before, behind] = partition(line.cells[at].replace(/\[/g, "(").replace(/\]/g, ")"), "(");
      const name = table.columns.find((one) => plainName(one) === plainName(before));
      const written = partition(behind, ")")[0].trim();
      if (!name) continue;
      if (name in columns) faults.push(fault(line.number, name, "it stands there twice", "take one of the two out"));
      const unit = written ? table.units.find((one) => one.name === written) : own;
      if (!unit) {
        const names = table.units.map((one) => one.name).join(", ");
        faults.push(fault(line.number, name, `the unit "${written}" is not offered here`, `write one of ${names}`));
      }
      if (!(name in columns)) columns[name] = { at: at, unit: unit || own };
    }
    const todo = `write a first line with ${table.columns.join(", ")}`;
    const missing = table.columns.filter((name) => !(name in columns));
    return { columns, faults: [...faults, ...missing.map((name) => fault(line.number, name, "there is no such column", todo))] };
  }

  /** @param {string} text @param {string} mark */
  function partition(text, mark) {
    const at = text.indexOf(mark);
    return at < 0 ? [text, ""] : [text.slice(0, at), text.slice(at + 1)];
  }

  // The rows.

  /**
   * Read a number in a column's unit, or with one of the offered units; it comes back in the table's own. Where the
   * comma parts no cells it can only be a decimal sign; in quotes between commas it could be either.
   * @param {string} cell @param {string} mark @param {Unit} unit @param {PointTable} table @returns {number | string}
   */
  function readNumber(cell, mark, unit, table) {
    const written = readWritten(mark === "," ? cell : cell.replace(",", "."));
    if (typeof written === "string") return written;
    const found = written.unit ? table.units.find((one) => one.name === written.unit) : unit;
    if (!found) return `the unit "${written.unit}" is not offered here`;
    const value = inOwn(written.number, found, table.unit);
    return Number.isFinite(value) ? value : "the number is too large";
  }

  /** @param {Ratio} number @param {Unit} unit @param {Unit} own */
  function inOwn(number, unit, own) {
    const [above, below] = unit.exact.map(BigInt);
    const [ownAbove, ownBelow] = own.exact.map(BigInt);
    return toFloat({ n: number.n * above * ownBelow, d: number.d * below * ownAbove });
  }

  /** @param {string} cell @param {PointTable} table @returns {boolean | null} */
  function readSound(cell, table) {
    const word = cell.toLowerCase();
    if (table.yes.includes(word)) return true;
    return table.no.includes(word) ? false : null;
  }

  /**
   * Read one line whose cells stand in the order of `columns`.
   * @param {string[]} cells @param {Unit[]} units @param {string} mark @param {number} line @param {PointTable} table
   * @param {Record<string, number>} first  On which line a name stood before.
   * @returns {{point: MeasuredPoint | null, faults: RowFault[]}}
   */
  function readCells(cells, units, mark, line, table, first) {
    const faults = [];
    const name = cells[NAME];
    if (!name) {
      faults.push(fault(line, table.columns[NAME], "nothing is written here", "give the point a name"));
    } else if (name in first) {
      const message = `"${name}" stands on line ${first[name]} already`;
      faults.push(fault(line, table.columns[NAME], message, "give each point a name of its own"));
    }
    const numbers = [];
    for (let at = FIRST; at < PAST; at += 1) {
      const found = readNumber(cells[at], mark, units[at], table);
      if (typeof found === "string") {
        const message = cells[at] ? `"${cells[at]}" cannot be used: ${found}` : "nothing is written here";
        faults.push(fault(line, table.columns[at], message, `write a number in ${table.unit.name}`));
      } else {
        numbers.push(found);
      }
    }
    const sound = readSound(cells[SOUND], table);
    if (sound === null) {
      const message = cells[SOUND] ? `"${cells[SOUND]}" is neither` : "nothing is written here";
      faults.push(fault(line, table.columns[SOUND], message, `write ${table.yes[0]} or ${table.no[0]}`));
    }
    if (faults.length) return { point: null, faults };
    const [a, b, c, d, e, f] = numbers;
    return { point: { name, stated: [a, b, c], measured: [d, e, f], sound: sound === true }, faults };
  }

  /**
   * Read a table. A line at fault gives no point; a head at fault gives none at all.
   * @param {string} text @param {PointTable} table @param {Unit} [unit]  Of a bare number; the table's own unless given.
   * @returns {{points: MeasuredPoint[], faults: RowFault[]}}
   */
  function readRows(text, table, unit) {
    const { mark, lines } = cut(text);
    if (!lines.length) {
      const todo = `begin with a line: ${table.columns.join(", ")}`;
      return { points: [], faults: [fault(0, "", "there is nothing in the table", todo)] };
    }
    const { columns, faults } = readHead(lines[0], table, unit || table.unit);
    if (faults.length) return { points: [], faults };
    /** @type {Record<string, number>} */
    const first = Object.create(null);
    /** @type {MeasuredPoint[]} */
    const points = [];
    for (const line of lines.slice(1)) {
      const cells = table.columns.map((name) => line.cells[columns[name].at] || "");
      const units = table.columns.map((name) => columns[name].unit);
      const read = readCells(cells, units, mark, line.number, table, first);
      if (!(cells[NAME] in first)) first[cells[NAME]] = line.number;
      faults.push(...read.faults);
      if (read.point) points.push(read.point);
    }
    return { points, faults };
  }

  /** @param {RowFault} one */
  function placed(one) {
    const where = [one.line ? `line ${one.line}` : "", one.column ? `column ${one.column}` : ""].filter(Boolean);
    return where.length ? `${where.join(", ")}: ${one.message}` : one.message;
  }

  /** @param {string} cell */
  function quoted(cell) {
    return /[",;\t\n]/.test(cell) ? `"${cell.replace(/"/g, '""')}"` : cell;
  }

  /** Write points as a table that `readRows` reads back to the last bit. @param {MeasuredPoint[]} points @param {PointTable} table */
  function writeRows(points, table) {
    const head = table.columns.map((name, at) => (at >= FIRST && at < PAST ? `${name} (${table.unit.name})` : name));
    const rows = points.map((point) => [
      quoted(point.name), ...point.stated.map(String), ...point.measured.map(String),
      point.sound ? table.yes[0] : table.no[0],
    ]);
    return [head, ...rows].map((row) => row.join(", ")).join("\n") + "\n";
  }

  seambook.pointRows = { readRows, readCells, readNumber, placed, writeRows };
})();
