"""A small job with a wait, a window and a watch, and a page that shows its timers with the real scripts and style sheets."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from tests.browser.job_states import ASSETS, state, step

SCRIPTS = (
    "job_dom", "job_words", "job_kept", "job_rows", "job_entries", "job_waits", "job_tasks",
    "bay_clock", "bay_timer_words", "bay_wall", "bay_alarm", "bay_awake", "bay_timer_view", "bay_timers",
)  # fmt: skip
STYLES = ("tokens", "sheet", "parts", "steps", "bay_timers")
SHELL = """
window.begin = (given) => {
  const kept = window.localStorage.getItem("kept-job");
  window.changes = 0;
  const job = kept ? JSON.parse(kept) : given.job;
  const keep = () => window.localStorage.setItem("kept-job", JSON.stringify(job));
  window.state = { ...given, job, change: (edit) => { edit(job); window.changes += 1; keep(); } };
  window.gone = [];
  const go = (id) => window.gone.push(id);
  window.draw = () => window.seambook.bayTimers.draw(document.getElementById("bay_timers"), window.state, { go });
  window.done = (id, at) => {
    const node = window.state.planned.merged.nodes.find((one) => one.id === id);
    window.state.change((own) => { own.done[id] = { at: at || window.seambook.jobWords.stamp(Date.now()), by: "Maren" }; });
    window.seambook.bayTimers.stepDone(window.state, { id, step: node.step, also: [] });
    window.draw();
  };
  window.draw();
};
const laid = window.localStorage.getItem("laid");
if (laid) window.begin(JSON.parse(laid));
"""
HEARD = """
window.tones = [];
window.shakes = [];
const start = OscillatorNode.prototype.start;
OscillatorNode.prototype.start = function (...given) { window.tones.push(this.frequency.value); return start.apply(this, given); };
Navigator.prototype.vibrate = (pattern) => { window.shakes.push(pattern); return true; };
"""
WATCHING = {"every": 10, "look": "Feel it.", "cold": "Cold", "warm": "Warm", "warm_do": "Stay by it.", "warn": 30, "late": "Scuff it."}
RUN = "first-panel@left#"
STEPS = [
    step("flash", 1, wait={"least": 20, "for": "flash"}, do="Spray the primer."),
    step("prime", 2, wait={"least": 60, "most": 240, "for": "window to sealer"}, do="Prime it."),
    step("seal", 3, do="Seal it."),
    step("last-spark", 4, do="Weld it."),
    step("watch", 5, watch=True, wait={"least": 60, "for": "fire watch", "attended": True}, minutes=0, do="Stay with it."),
    step("close", 6, do="Close it."),
    step("cure", 7, wait={"least": 720, "for": "cure"}, do="Leave it."),
]  # fmt: skip
CHAIN = ((1, 2), (3, 4), (4, 5))


def given(**more: Any) -> dict[str, Any]:
    """What the page is given: the steps above in their order."""
    found = state(**more)
    procedures = found["library"]["procedures"]
    procedures["first-panel"]["steps"] = STEPS
    nodes = [{"id": RUN + one["key"], "step": one, "also": []} for one in STEPS]
    arcs = [{"from": one, "to": other, "kind": "own", "lag": 0} for one, other in CHAIN]
    found["library"] = procedures
    found["book"]["planning"]["watching"] = WATCHING
    found["job"] |= {"climate": {"temperature": 18, "humidity": 50}, "timers": []}
    found["planned"] = {"rows": [], "merged": {"nodes": nodes, "arcs": arcs, "limits": [[1, 2, 240]]}}
    return found


def lay(folder: Path) -> Path:
    """Write the page."""
    styles = "".join(f'<link rel="stylesheet" href="{(ASSETS / f"css/{name}.css").as_uri()}">' for name in STYLES)
    scripts = "".join(f'<script src="{(ASSETS / f"js/{name}.js").as_uri()}"></script>' for name in SCRIPTS)
    (folder / "shell.js").write_text(SHELL, "utf-8")
    page = folder / "timers.html"
    page.write_text(
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        f"<title>Job in the bay</title>{styles}</head>"
        '<body data-root="" data-book="try"><main class="sheet"><h1>Job</h1><div id="bay_timers"></div></main>'
        f'{scripts}<script src="shell.js"></script></body></html>',
        "utf-8",
    )
    return page


def begin(page: Page, address: str, **more: Any) -> None:
    """Open the page with a job at its beginning."""
    page.goto(address)
    page.evaluate("given => { localStorage.clear(); localStorage.setItem('laid', given); }", json.dumps(given(**more)))
    again(page)


def again(page: Page) -> None:
    """The tab was killed and opened again: no hand has touched the page yet, and the job is as the browser kept it."""
    address = page.url
    page.goto("about:blank")
    page.goto(address)


def done(page: Page, key: str) -> None:
    """Tick a step."""
    page.evaluate("id => window.done(id)", RUN + key)


def timers(page: Page) -> list[dict[str, Any]]:
    """What the job holds."""
    found: list[dict[str, Any]] = page.evaluate("() => window.state.job.timers")
    return found


def watch(page: Page) -> None:
    """Begin the watch before its step is ticked."""
    page.evaluate("""id => {
      const { step } = window.state.planned.merged.nodes.find((one) => one.id === id);
      window.seambook.bayTimers.beginWatch(window.state, { id, step, also: [] });
    }""", RUN + "watch")


def rows(page: Page) -> list[str]:
    """What each row says, in words: its time, and what follows."""
    found: list[str] = page.locator(".bay-timer-head").evaluate_all("""all => all.map((one) => [
      one.querySelector("[data-figure]"), one.querySelector("strong"), one.querySelector("[data-how]"),
    ].map((part) => part.textContent).join(" | "))""")
    return found
