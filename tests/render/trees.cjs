// Script files -> for each what its syntax tree says, without places, comments and blanks, as JSON.
"use strict";

const fs = require("fs");
const path = require("path");
const ts = require(path.join(__dirname, "..", "tools", "node_modules", "typescript"));

const SAID = ["text", "rawText", "operator", "flags"];
const DECLARED = ts.NodeFlags.Let | ts.NodeFlags.Const;

function told(node) {
  const own = SAID.filter((name) => node[name] !== undefined && !ts.isSourceFile(node))
    .map((name) => (name === "flags" ? node.flags & DECLARED : node[name]));
  const below = [];
  ts.forEachChild(node, (child) => { below.push(told(child)); });
  return [ts.SyntaxKind[node.kind], ...own, below];
}

const found = {};
for (const file of process.argv.slice(2)) {
  const source = ts.createSourceFile(file, fs.readFileSync(file, "utf8"), ts.ScriptTarget.Latest, false, ts.ScriptKind.JS);
  found[file] = { faults: source.parseDiagnostics.length, tree: JSON.stringify(told(source)) };
}
process.stdout.write(JSON.stringify(found));
