"""A record kind -> a fresh record to fill in: every key with what it takes, in the order of the type.

A key that must be there stands with a placeholder; one that may be left out is commented out, `#key: ...`, so that
taking its # away is enough. Explanations are `# ...`, with one blank.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from builder.model.forms.form import Either, Form, Items, Key, Named, Part, Text, form_of_record
from builder.model.forms.wording import Scales, leave_out, takes
from builder.model.near import a
from builder.model.records import Kind
from builder.model.records.fields import FILL_IN, NONE
from builder.model.records.page import TEXT
from builder.model.reference import Ref

WIDTH = 110
STEP = "  "
PAGE_ENDING, HEAD_LINE = ".md", "---\n"
"""Of a record that is prose below a head, and what stands before and behind the head."""


def blank(kind: Kind, ref: Ref, scales: Scales) -> str:
    """Return the text of a fresh record, without the editor's line."""
    form = form_of_record(kind.type)
    if kind.ending == PAGE_ENDING:
        return _blank_page(form, ref, scales)
    head = [
        *_said(f"{a(kind.name).capitalize()}, {ref}. {form.doc}"),
        *_said(f"Write something in place of every {FILL_IN}, then type: seambook check"),
        *_said("A key behind a # may be left out; take the # away to use it, not the blanks before it."), "",
    ]  # fmt: skip
    return "\n".join([*head, *_keys(form, scales)]) + "\n"


def _blank_page(form: Part, ref: Ref, scales: Scales) -> str:
    """Return a head with its keys, and below it a place for the text."""
    below = [key for key in form.keys if key.name == TEXT]
    head = Part(form.name, form.doc, tuple(key for key in form.keys if key not in below))
    said = [
        *_said(f"{a(ref.kind).capitalize()}, {ref}. {form.doc}"),
        *_said(f"Write something in place of every {FILL_IN}, then type: seambook check"), "",
    ]  # fmt: skip
    docs = [line for key in below for line in _said(key.doc)]
    lines = [*said, *_keys(head, scales), "", *docs]
    return HEAD_LINE + "\n".join(lines) + f"\n{HEAD_LINE}\n{FILL_IN}\n"


def _keys(part: Part, scales: Scales) -> Iterator[str]:
    for key in part.keys:
        lines = [f"{key.name}:{line}" if at == 0 else line for at, line in enumerate(_value(key.form, scales))]
        yield from _comment(key, scales)
        yield from lines if key.required else _commented_out(lines)


def _comment(key: Key, scales: Scales) -> Iterator[str]:
    doc = key.doc or _doc_inside(key.form)
    rest = "; ".join(one for one in (takes(key.form, scales), leave_out(key)) if one)
    yield from _said(f"{doc} {rest[:1].upper()}{rest[1:]}.".lstrip())


def _doc_inside(form: Form) -> str:
    match form:
        case Part():
            return form.doc
        case Items() | Named():
            return _doc_inside(form.of)
    return ""


def _said(text: str) -> list[str]:
    return wrap(text, WIDTH, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False)


def _commented_out(lines: Iterable[str]) -> Iterator[str]:
    return (f"#{line}" for line in lines)


def _value(form: Form, scales: Scales) -> Iterator[str]:
    """What stands behind a key's colon: first the rest of its line, then the lines below it."""
    match form:
        case Part() if not any(key.required for key in form.keys):
            yield f" {FILL_IN}"
            yield from _indented(_shape(form, form, scales))
        case Part():
            yield ""
            yield from _indented(_keys(form, scales))
        case Items(of=of, none=False, single=False):
            yield ""
            yield from _indented(_item(of, scales))
        case Named(none=False):
            yield ""
            yield from _indented(_named(form, scales))
        case Items(of=Part() as part) | Named(of=Part() as part) | Either(forms=(_, Part() as part)):
            yield f" {FILL_IN}"
            yield from _indented(_shape(form, part, scales))
        case _:
            yield f" {FILL_IN}"


def _item(of: Form, scales: Scales) -> Iterator[str]:
    if isinstance(of, Part | Named):
        yield "-"
        yield from list(_value(of, scales))[1:]
    else:
        yield f"- {FILL_IN}"


def _named(form: Named, scales: Scales) -> Iterator[str]:
    """One entry; its key is to be chosen too."""
    underscored = isinstance(form.keys, Text) and "_" in form.keys.pattern
    first, *below = _value(form.of, scales)
    yield f"{'rename_this' if underscored else 'rename-this'}:{first}"
    yield from below


def _shape(form: Form, part: Part, scales: Scales) -> Iterator[str]:
    """Of what may be none or nothing instead: the keys it has where it is not, commented out."""
    yield from _said(f"Take away {FILL_IN}, and the # of each key that is needed." if form is part
                     else f"If it is not {NONE}, take away {FILL_IN} and the # of each line here:")  # fmt: skip
    lines = list(_keys(part, scales))
    if isinstance(form, Items):
        lines = ["-", *_indented(lines)]
    elif isinstance(form, Named):
        lines = ["rename_this:", *_indented(lines)]
    yield from _commented_out(lines)


def _indented(lines: Iterable[str]) -> Iterator[str]:
    return (STEP + line for line in lines)
