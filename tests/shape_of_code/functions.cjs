// Script files -> each function with the lines it takes, as JSON. The wrapper of a whole script is left out.
"use strict";

const fs = require("fs");
const path = require("path");
const ts = require(path.join(__dirname, "..", "tools", "node_modules", "typescript"));

/** Is this the function of `(function () { ... })();` at the top of the file? */
function isWrapper(node) {
  const call = node.parent && node.parent.parent;
  return Boolean(call) && ts.isCallExpression(call) && ts.isExpressionStatement(call.parent)
    && ts.isSourceFile(call.parent.parent);
}

const found = [];
for (const file of process.argv.slice(2)) {
  const source = ts.createSourceFile(file, fs.readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
  const lineOf = (place) => source.getLineAndCharacterOfPosition(place).line;
  const visit = (node) => {
    if (ts.isFunctionLike(node) && node.body && !isWrapper(node)) {
      const name = node.name ? node.name.getText(source) : `line ${lineOf(node.getStart(source)) + 1}`;
      found.push({ file, name, lines: lineOf(node.getEnd()) - lineOf(node.getStart(source)) + 1 });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
}
process.stdout.write(JSON.stringify(found));
