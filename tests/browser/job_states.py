"""A small job made by hand, planned by hand, and a page that shows its views with the real scripts and style sheets."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

ASSETS = Path(__file__).parents[2] / "templates/assets"
SCRIPTS = (
    "folder",
    "numbers",
    "strokes",
    "lengths",
    "weld_places",
    "pieces",
    "paper",
    "strip",
    "job_kept",
    "as_built",
    "job_dom",
    "seen",
    "seen_mark",
    "job_seen",
    "job_status",
    "job_photo",
    "job_words",
    "job_rows",
    "job_parts",
    "job_loop",
    "job_entries",
    "job_photos",
    "job_ticks",
    "job_lanes",
    "job_timeline_draw",
    "job_timeline",
    "job_paper",
    "job_plan_view",
    "job_step_card",
    "job_steps",
    "job_traveller",
    "job_asbuilt",
    "job_findings",
    "takeoff",
    "job_takeoff_view",
    "job_customer",
    "job_strips",
    "job_print",
)
STYLES = ("tokens", "sheet", "parts", "steps", "drawing", "job", "job_views", "strip")
PAPER_STYLES = ("print", "job_print")
VIEWS = ("plan", "steps", "take-off", "as-built", "findings", "customer", "print")
SHELL = """
window.show = (state, view) => {
  const place = document.getElementById("job_place");
  const shown = () => window.seambook.jobViews[window.shownView].draw(place, state);
  const redone = () => {
    for (const row of state.planned.rows) {
      row.done = row.id in state.job.done;
      const run = state.job.runs.find((one) => row.id.startsWith(`${one.procedure}@${one.side}#`));
      const finding = state.job.findings.find((one) => run && one.id === run.finding);
      row.waiting = finding && finding.answer !== "yes" && !finding.make_safe ? finding.id : null;
    }
  };
  state.change = (edit, how = {}) => { edit(state.job); redone(); if (how.redraw !== false) shown(); };
  state.say = (text) => { window.said = text; };
  window.state = state;
  window.shownView = view;
  redone();
  shown();
};
"""
RUNS = (("first-panel", "left"), ("second-panel", "left"), ("late-panel", ""))
START = datetime(2026, 11, 30, 8, 0)


def step(key: str, number: int, **more: Any) -> dict[str, Any]:
    """A step as the builder gives it; what says nothing is left out."""
    return {
        "key": key,
        "number": number,
        "phase": 0,
        "act": "work",
        "do": f"Do {key.replace('-', ' ')}.",
        "minutes": 60,
        "low": 50,
        "high": 90,
        "hands": 1,
        "on": ["Opening"],
        **more,
    }


def library() -> dict[str, Any]:
    """Three procedures: one that measures and stops at a hold point, one beside it, and one that a finding brings."""
    width = {"name": "Width", "unit": "mm", "low": 1000, "high": 1004, "source": "measured here"}
    depth = {"name": "Depth", "unit": "mm", "low": 2}
    steps = {
        "first-panel": [
            step("read", 1, measures=[width, depth], tools=["gauge"], hazards=["edge"]),
            step(
                "stop", 2, hold={"sort": "hold", "releases": "Foreman", "proof": "Seen at the car."}, photo="The joint."
            ),
            step(
                "coat",
                3,
                wait={"least": 120, "for": "cure"},
                traits=["wet"],
                act="shut-in",
                on=["Rail"],
                supplies=["paste"],
            ),
            step("read-again", 4, measures=[width], traits=["dust"]),
        ],
        "second-panel": [step("beside", 1, minutes=90), step("weld", 2, hands=2, act="take-out", on=["Old part"])],
        "late-panel": [step("late", 1)],
    }
    return {
        id_: {
            "id": id_,
            "title": id_.replace("-", " ").capitalize(),
            "path": f"procedures/{id_}.html",
            "fingerprint": "a" * 12,
            "revision": {"number": 2},
            "handed": id_ != "late-panel",
            "parts": [],
            "people": [{"who": "Somebody", "count": 1}],
            "tools": [],
            "steps": found,
            "takes": [
                {"supply": "paste", "step": "coat", "once": "", "amount": 150.0, "unit": "mL", "how": "three beads"}
            ]
            if id_ == "first-panel"
            else [],
        }
        for id_, found in steps.items()
    }


PLACED = {  # day of the month, hour and minute of start and end, and of the end of the wait where there is one
    "first-panel@left#read": ((30, 8, 0), (30, 9, 0), None),
    "second-panel@left#beside": ((30, 8, 0), (30, 9, 30), None),
    "first-panel@left#stop": ((30, 9, 0), (30, 10, 0), None),
    "second-panel@left#weld": ((30, 10, 0), (30, 11, 0), None),
    "first-panel@left#coat": ((30, 15, 30), (30, 16, 30), (30, 18, 30)),
    "first-panel@left#read-again": ((31, 8, 0), (31, 9, 0), None),
    "late-panel@#late": ((31, 9, 15), (31, 10, 15), None),
}


def moment(at: tuple[int, int, int]) -> int:
    """Milliseconds by the clock of the page, which runs in the zone of the machine's own tests: UTC."""
    day, hour, minute = at
    whole = datetime(2026, 12, 1, hour, minute) if day == 31 else datetime(2026, 11, 30, hour, minute)
    return round((whole - datetime(1970, 1, 1)).total_seconds() * 1000)


def planned(procedures: dict[str, Any]) -> dict[str, Any]:
    """The plan that stands in PLACED."""
    nodes, rows = [], []
    for id_, (start, end, until) in PLACED.items():
        run, key = id_.split("#")
        data = next(one for one in procedures[run.split("@")[0]]["steps"] if one["key"] == key)
        node = {"id": id_, "step": data, "also": []}
        nodes.append(node)
        rows.append(
            {
                "id": id_,
                "node": node,
                "start": moment(start),
                "end": moment(end),
                "until": moment(until or end),
                "parts": [[moment(start), moment(end)]],
                "critical": run.startswith("first"),
                "done": False,
                "waiting": None,
            }
        )
    ids = list(PLACED)
    arcs = [
        {"from": ids.index(one), "to": ids.index(other), "kind": "own"}
        for one, other in ((ids[0], ids[2]), (ids[2], ids[4]), (ids[4], ids[5]), (ids[1], ids[3]))
    ]
    tasks = [
        {
            "id": id_,
            "minutes": node["step"]["minutes"],
            "hands": node["step"]["hands"],
            "linger": {"wet": 120} if "coat" in id_ else {},
        }
        for id_, node in zip(ids, nodes, strict=True)
    ]
    finish = rows[-1]["end"]
    return {
        "ok": True,
        "problems": [],
        "rows": rows,
        "finish": finish,
        "low": finish,
        "likely": finish,
        "high": finish,
        "left": 450,
        "handsOn": 450,
        "idle": 30,
        "critical": [id_ for id_ in ids if id_.startswith("first")],
        "advice": [{"say": "A third pair of hands would end it 1 h sooner.", "ids": []}],
        "owed": [],
        "taken": [],
        "order": ids,
        "merged": {"nodes": nodes, "arcs": arcs, "loop": None},
        "problem": {"tasks": tasks},
    }


def state(**more: Any) -> dict[str, Any]:
    """What the page gives a view."""
    procedures = library()
    job = {
        "id": "job-1",
        "number": "26-041",
        "title": "Small job",
        "customer": "R. Tamsin",
        "car": "Grey",
        "hands": 2,
        "hours": {"opens": "08:00", "closes": "17:00", "days": [1, 2, 3, 4, 5]},
        "start": "2026-11-30T08:00",
        "prices": {"currency": "EUR", "labour": 60, "supplies": {"paste": 10}},
        "runs": [
            {
                "procedure": id_,
                "side": side,
                "revision": 2,
                "fingerprint": "a" * 12,
                "title": procedures[id_]["title"],
                "finding": "f1" if id_ == "late-panel" else "",
            }
            for id_, side in RUNS
        ],
        "done": {},
        "readings": {},
        "releases": {},
        "notes_by_step": {},
        "photos": {},
        "coupons": [],
        "batches": {},
        "order": [],
        "findings": [
            {
                "id": "f1",
                "where": "Behind the rail",
                "size": "40 mm",
                "found": "2026-11-30T09:00",
                "by": "Ilse",
                "procedures": [{"procedure": "late-panel", "side": ""}],
                "supplies": [],
                "minutes": 0,
                "price": 80,
                "make_safe": False,
                "answer": "waiting",
            }
        ],
        **more,
    }
    book = {
        "book": {"id": "try", "title": "A book", "fingerprint": "b" * 12},
        "procedures": [
            {
                "id": id_,
                "title": one["title"],
                "path": one["path"],
                "handed": one["handed"],
                "revision": 2,
                "fingerprint": "a" * 12,
            }
            for id_, one in procedures.items()
        ],
        "rules": {},
        "states": {},
        "subjects": {"seam:lap": "The lap"},
        "methods": {"spot": "Spot"},
        "hazards": {
            "edge": {
                "title": "Sharp edge",
                "say": "Care",
                "signal": "care",
                "rank": 3,
                "avoid": "Wear gloves.",
                "path": "h.html",
            }
        },
        "tools": {"gauge": {"title": "Gauge", "path": "t.html"}},
        "supplies": {
            "paste": {
                "title": "Paste",
                "path": "s.html",
                "waste": 0.1,
                "always_whole": True,
                "pack": {"size": 100, "unit": "mL", "say": "tube"},
            }
        },
        "planning": {
            "places": {},
            "traits": {"wet": {"say": "wet film"}, "dust": {"say": "dust"}},
            "clashes": [{"between": ["dust", "wet"]}],
            "customer": {
                "opening": "This was done.",
                "closing": "Come at once.",
                "looks": [{"after": "1 month", "look": "Look."}],
                "parts": [
                    {
                        "id": "out",
                        "say": "Cut out",
                        "means": "Gone.",
                        "of": "steps",
                        "acts": ["take-out"],
                        "nothing": "",
                        "ask": "",
                    },
                    {
                        "id": "kept",
                        "say": "Kept",
                        "means": "Sound.",
                        "of": "steps",
                        "acts": ["shut-in"],
                        "nothing": "None.",
                        "ask": "Where",
                    },
                    {
                        "id": "read",
                        "say": "Measured",
                        "means": "Read.",
                        "of": "measures",
                        "acts": [],
                        "nothing": "",
                        "ask": "",
                    },
                    {
                        "id": "again",
                        "say": "Again",
                        "means": "Look.",
                        "of": "looks",
                        "acts": [],
                        "nothing": "",
                        "ask": "",
                    },
                ],
            },
        },
    }
    return {
        "job": job,
        "book": book,
        "library": {"book": book, "procedures": procedures},
        "planned": planned(procedures),
        "today": moment((30, 9, 20)),
    }


def lay(folder: Path) -> Path:
    """Write the page that shows a view of a state."""
    styles = "".join(f'<link rel="stylesheet" href="{(ASSETS / f"css/{name}.css").as_uri()}">' for name in STYLES)
    styles += "".join(
        f'<link rel="stylesheet" media="print" href="{(ASSETS / f"css/{name}.css").as_uri()}">' for name in PAPER_STYLES
    )
    scripts = "".join(f'<script defer src="{(ASSETS / f"js/{name}.js").as_uri()}"></script>' for name in SCRIPTS)
    (folder / "shell.js").write_text(SHELL, "utf-8")
    page = folder / "views.html"
    page.write_text(
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        f'<title>Views</title>{styles}{scripts}<script defer src="shell.js"></script></head>'
        '<body data-root="" data-book="try"><main class="sheet"><h1>Job</h1><div class="columns single">'
        '<div class="column">'
        '<div class="job-view" id="job_place"></div></div></div></main></body></html>',
        "utf-8",
    )
    return page


SHOWN = """async ([state, view]) => {
  window.show(JSON.parse(state), view);
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
}"""


def show(page: Page, view: str, given: dict[str, Any]) -> None:
    """Show a view of a state, afresh; a drawing that fits its place is there after the next frame."""
    page.evaluate(SHOWN, [json.dumps(given), view])
