/*
 * Labels and a sheet -> its drawings, one unit a millimetre: name, id, job, and the code that leads to the page.
 * Needs qr.js, label_sheet.js, label_fit.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const { qr, labelSheet, labelFit } = seambook;

  /** @typedef {{title: string, id: string, note: string, address: string}} Label */
  const PAD = 2;
  /** Of a label's breadth and of its height at most, and in mm. */
  const [CODE_SHARE, CODE_MOST] = [0.42, 32];
  /** A phone's camera reads a module of this size from a hand's breadth away; from memory. */
  const LEAST_MODULE = 0.33;
  const NAME = { most: 6, least: 2.2 };
  const SMALL = { most: 3, least: 1.9 };
  /** What a printer may put beside a line's end, as a share of its length. */
  const SAFE = 1.03;

  const canvas = document.createElement("canvas").getContext("2d");
  /** @type {Map<string, number>} */
  const widths = new Map();

  /** @param {string} text @param {number} size @param {boolean} isBold */
  function measure(text, size, isBold) {
    const key = `${isBold ? "b" : ""} ${text}`;
    let width = widths.get(key);
    if (width === undefined && canvas) {
      canvas.font = `${isBold ? 700 : 400} 100px ${getComputedStyle(document.body).fontFamily}`;
      widths.set(key, (width = canvas.measureText(text).width / 100));
    }
    return (width || 0) * size * SAFE;
  }

  /** @param {Label} label @param {number} width @param {number} height */
  function codeOf(label, width, height) {
    const rows = label.address ? qr.modules(label.address) : null;
    if (!rows) return { size: 0, module: Infinity, path: "" };
    const size = Math.min(height - PAD, width * CODE_SHARE, CODE_MOST);
    return { size, module: size / (rows.length + 2 * qr.QUIET), path: qr.path(rows) };
  }

  /** @param {Label} label @param {{width: number, height: number}} places @param {boolean} isOutlined */
  function one(label, { width, height }, isOutlined) {
    const code = codeOf(label, width, height);
    // The code brings its own free edge, so that it may stand at the label's.
    const room = width - 2 * PAD - (code.size ? code.size - PAD / 2 : 0);
    const parts = [{ text: label.title, ...NAME, isBold: true }, { text: label.note, ...SMALL }, { text: label.id, ...SMALL }];
    const made = labelFit.fit(parts, room, height - 2 * PAD, measure);
    const top = PAD + Math.max(0, (height - 2 * PAD - made.height) / 2);
    const marks = [
      isOutlined ? el("rect", { class: "label-edge", x: 0, y: 0, width, height }) : null,
      ...made.lines.map((/** @type {LabelLine} */ line) => el("text", { x: PAD, y: (top + line.y).toFixed(3), "font-size": line.size.toFixed(3), class: line.isBold ? "strong" : null, text: line.text })),
      code.size ? el("path", { class: "label-code", d: code.path, transform: `translate(${(width - code.size).toFixed(3)} ${((height - code.size) / 2).toFixed(3)}) scale(${code.module.toFixed(5)})` }) : null,
    ];
    return { marks, fits: made.fits, isRead: code.module >= LEAST_MODULE };
  }

  /**
   * @param {Label[]} labels @param {SheetSettings} set @param {[number, number]} size @param {boolean} isOutlined
   * @returns {{sheets: SVGElement[], tight: Label[], unread: Label[]}} the sheets, and labels whose words or code have no room
   */
  function sheets(labels, set, size, isOutlined) {
    const places = labelSheet.places(set, size);
    /** @type {SVGElement[]} */
    const made = [];
    /** @type {Label[]} */
    const tight = [];
    /** @type {Label[]} */
    const unread = [];
    labels.forEach((label, number) => {
      const { sheet, x, y } = places.at(number);
      while (made.length <= sheet) made.push(empty(size, made.length + 1));
      const { marks, fits, isRead } = one(label, places, isOutlined);
      made[sheet].append(el("g", { transform: `translate(${x.toFixed(3)} ${y.toFixed(3)})` }, ...marks));
      if (!fits) tight.push(label);
      if (!isRead) unread.push(label);
    });
    return { sheets: made, tight, unread };
  }

  /** A hair less high than the paper, or a printer's rounding would push out an empty sheet. @param {[number, number]} size @param {number} number */
  function empty([width, height], number) {
    const [foot, id] = [height - 0.5, `label_sheet-${number}`];
    const made = el("svg", { class: "label-sheet", role: "img", "aria-labelledby": id, viewBox: `0 0 ${width} ${foot}`, width: `${width}mm`, height: `${foot}mm` });
    made.append(el("title", { id, text: `Sheet ${number} of labels` }));
    return made;
  }

  seambook.labelDraw = { sheets };
})();
