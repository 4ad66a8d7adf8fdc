"""Scripts and sheets without what is only for readers mean what they meant: a parser reads both ways of writing."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.render.lean import lean_script, lean_sheet
from builder.supplied import templates

TREES = Path(__file__).with_name("trees.cjs")
SCRIPTS = sorted((templates() / "assets" / "js").glob("*.js"))
SHEETS = sorted((templates() / "assets" / "css").glob("*.css"))
LEAST = 0.25
"""Of a script that much at least is for its readers; as measured 0.4 of all of them."""
RULES = """(text) => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(text);
  return [...sheet.cssRules].map((rule) => rule.cssText.replace(/("[^"]*")|, /g, (all, quoted) => quoted || ","));
}"""
"""Where a value holds a variable, the browser keeps the blanks that it was written with."""


def trees(files: list[Path]) -> dict[str, dict[str, object]]:
    run = subprocess.run(
        ["node", str(TREES), *map(str, files)], stdin=subprocess.DEVNULL, capture_output=True, text=True, check=True
    )
    found: dict[str, dict[str, object]] = json.loads(run.stdout)
    return found


def test_every_script_has_the_same_syntax_tree(tmp_path: Path) -> None:
    lean = [tmp_path / one.name for one in SCRIPTS]
    for before, after in zip(SCRIPTS, lean, strict=True):
        after.write_text(lean_script(before.read_text("utf-8")), "utf-8")
    read = trees([*SCRIPTS, *lean])
    for before, after in zip(SCRIPTS, lean, strict=True):
        assert read[str(before)]["faults"] == read[str(after)]["faults"] == 0, before.name
        assert read[str(before)]["tree"] == read[str(after)]["tree"], before.name
    sizes = [sum(one.stat().st_size for one in files) for files in (SCRIPTS, lean)]
    assert sizes[1] < sizes[0] * (1 - LEAST)


@pytest.mark.parametrize(("one", "other"), [("a = b", "a = c"), ("let a = `${b}  `", "let a = `${b} `"),
                                            ("a = /x /", "a = /x/"), ("let a = b", "const a = b"), ("a + b", "a - b"),
                                            ("return\na", "return a"), ("'a'", "'a '")])  # fmt: skip
def test_scripts_that_differ_are_told_apart(tmp_path: Path, one: str, other: str) -> None:
    files = [tmp_path / "one.js", tmp_path / "other.js"]
    for file, text in zip(files, (one, other), strict=True):
        file.write_text(f"function f() {{ {text}\n}}\n", "utf-8")
    read = trees(files)
    assert read[str(files[0])]["tree"] != read[str(files[1])]["tree"]


@pytest.mark.parametrize(("before", "after"), [
    ("/** Says so. */\nconst a = 1; // one\n\n", "const a=1;"),
    ('const way = "http://x"; // a "quote"', 'const way="http://x";'),
    ("const a = 'it\\'s /* no */ note';", "const a='it\\'s /* no */ note';"),
    ("const a = `one\n  // two ${ b /* three */ }`;", "const a=`one\n  // two ${ b /* three */ }`;"),
    ("a = `x ${b ? `  ${c || \"`\"}  ` : '}'} y`;  b = 1", "a=`x ${b ? `  ${c || \"`\"}  ` : '}'} y`;b=1"),
    ('return /[",;\\t\\n]/.test(cell) ? `"${cell.replace(/"/g, \'""\')}"` : cell;',
     'return/[",;\\t\\n]/.test(cell)?`"${cell.replace(/"/g, \'""\')}"`:cell;'),
    ("a = b / c; // d / e", "a=b/ c;"),
    ("x.replace(/ {2}\\/\\* /g, ' ')", "x.replace(/ {2}\\/\\* /g,' ')"),
    ("let a = b\nlet c = +d\n++e", "let a=b\nlet c=+d\n++e"),
    ("a = b + +c - -d", "a=b+ +c- -d"),
    ("return /* what\n*/ a", "return\na"),
    ("if (a) return;\n\n  else b()", "if(a)return;else b()"),
    ("for (const one of all)\n  one in two", "for(const one of all)\none in two"),
    ("a\n  .b()\n  .c()", "a.b().c()"),
])  # fmt: skip
def test_of_a_script_only_blanks_and_comments_go(before: str, after: str) -> None:
    assert lean_script(before) == after + "\n"


@pytest.mark.parametrize(("before", "after"), [
    ("/* Ink. */\na:hover , b > c { color : red ; }\n", "a:hover,b > c{color :red}"),
    ('.a::after { content: "x;  /* y */ }"; }', '.a::after{content:"x;  /* y */ }"}'),
    (".a { background: url(data:image/svg+xml;a,  b); }", ".a{background:url(data:image/svg+xml;a,  b)}"),
    ("a :hover { margin: 0  auto; width: calc(1px + 2px); }", "a :hover{margin:0 auto;width:calc(1px + 2px)}"),
    ("@media print {\n  a { b: c; }\n  /* d */\n}\n", "@media print{a{b:c}}"),
])  # fmt: skip
def test_of_a_sheet_only_blanks_and_comments_go(before: str, after: str) -> None:
    assert lean_sheet(before) == after + "\n"


def test_every_sheet_has_the_same_rules(chromium: Browser) -> None:
    page = chromium.new_page()
    for file in SHEETS:
        text = file.read_text("utf-8")
        rules, lean = page.evaluate(RULES, text), page.evaluate(RULES, lean_sheet(text))
        assert rules, file.name
        assert rules == lean, file.name
    page.close()
