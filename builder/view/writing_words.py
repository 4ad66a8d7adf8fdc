"""What the writing guide says about every kind alike, as Markdown."""

GENERAL = """\
A record is one file of YAML. Its folder says its kind and its name says its id: `panels/left-step.yaml` is
`panel:left-step`. Ids are lower-case words joined by hyphens. An id is for good: when a record is renamed, the old id
goes into `was`, and links to it still arrive.

- A key that takes the id of one kind takes the bare id: `panel: left-step`. A key that takes several kinds takes
  `kind:id`. In prose write `[text](panel:left-step)`; a step of a procedure is `procedure:id#step-key`.
- `none` is written where a list has nothing in it. Left out and none are different things: what is left out may have
  been forgotten.
- `unknown` is a word for a strength, a coating or a thickness that nobody knows. It makes all advice stricter.
- A quantity is a number, a space and a unit: `0.8 mm`, `20 min`, `18 degC`. A bare number is refused.
- Prose is Markdown without HTML.
- A page of prose is a file of Markdown, `pages/our-hours.md`. It begins with a head: a line `---`, its keys, a line
  `---`. Links lead to a heading by its words: `[text](page:our-hours#who-opens)` leads to the heading "Who opens".

A lesson holds no question. Under `questions` it names the procedures and calculators that questions are drawn from, and
under `practical` the calculators that judge a piece of work; how many are asked, and the levels of a skill, stand in
`training.yaml` beside the folders of records.

Records lie in layers. A shop's own record with the kind and id of a supplied one takes its place, all of it.
`seambook write` begins a record with a comment on every key; `seambook check` says what is wrong, where, and what to
do.
"""

FORMULAS = """\
A formula is written as on paper: `+ - * /`, `**` for powers, brackets, comparisons, `and`, `or`, `not`, and `a if
condition else b`. Names are those of the inputs, of named constants, and of facts about a seam or a step. Every
quantity has a dimension, and what does not fit is refused: a length plus a time, or a temperature reading plus
another. `with_unit(2, mm)` makes a bare number a quantity, `in_unit(length, mm)` makes a quantity a bare number.
Numbers other than 0, 1, 2 and powers of ten are named as constants with their source. What cannot be worked out is
"no answer", and whatever depends on it has no answer either.
"""

FACTS = """\
Rules, methods, decisions and values of steps are worked out over facts. A fact that nobody has told has no answer, and
unknown is never looser than known.

- Of a seam's segment: `length`, `flange`, `depth`, `sides` (both, one or unknown), `layers`, `layers_most` (of the
  whole seam), `sheet_1` to `sheet_4`, `outer` and `inner` (the first and the last sheet), `outside` (the thinner of
  these two), `interface_1` to `interface_3` (the thinner of each two sheets that touch), `thinnest`, `thickest`,
  `governing`, `total`, `ratio`, `strongest`, `coating`, `factory_count`, `factory_pitch`, `factory_joined`, `joint`,
  `sealed`, `seal_profile`, `seal_size`, `filmed`, `closes`.
- In plans of methods and in values of steps also: `inside_area` (of all cavities the seam closes), `film_thickness` (of
  what is on its faces, by its supply).
- In decisions and in values of steps also, of its panels and its factory joint: `load_bearing` and `skin` (of any
  of its panels), `factory` (how the factory's method is drawn: spot, plug, seam, bond; or none).
- In decisions of an act and in values of steps, of the step: `kept_place` (which sheets stay, seen from the tools:
  back, front, middle or both), `kept_thickness` and `scrap_thickness` (of several that stay the thinnest, of several
  that go the thickest), `kept_strength` and `scrap_strength` (the strictest), `kept_skin`, `outer_stays`, `scrap_face`
  (whether tools reach the face of a sheet that goes), `method`, `makes_holes`.
- Of a panel: `strength`, `load_bearing`, `handed`, `bounds`, `drains`, `carries` (yes, no or unknown), `may_section`,
  `skin`, `part` (made, donor or none), `face` (the area of one side, as written).
- Of a cavity: `reachable`, `wax_entries`, `drains`, `lives_inside`, `inside_area`.
"""

RULES = """\
A rule says when it binds and has one consequence: what a step needs, owes, forbids or must itself carry, or which of
two acts comes first. States hold from the step that makes them until a step that spoils them. What an act makes and
spoils stands in the act. A step that cannot keep a rule names it under `except` with the reason, and the page shows
both.
"""
