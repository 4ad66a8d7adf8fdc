"""The problems that reading can find."""

from __future__ import annotations

from builder.model.problem import Code

NOT_YAML = Code("R101", "not_yaml", """\
The file is not well-formed YAML, so nothing in it can be read. The place is where the reader lost its way, which is
often the end of the line before: look there for a missing colon, bracket or quote, or for text that holds ": " or
" #" and needs quotes.""")

DUPLICATE_KEY = Code("R102", "duplicate_key", """\
A mapping has the same key twice. Which one was meant cannot be told, and a torque or a thickness must not get lost
by accident: keep one of them.""")

ALIAS = Code("R103", "alias", """\
The file uses an anchor (&name), an alias (*name) or a tag (!name). Records say everything where it is read, so that a
change in one place cannot change another unseen: write the value out.""")

TOO_DEEP = Code("R104", "too_deep", """\
Lists and mappings are nested deeper than any record needs. Look for a bracket that was never closed or for text that
was meant as text and needs quotes.""")

TOO_LARGE = Code("R105", "too_large", """\
The file is larger than a record may be. Split the procedure into several, or move the data into a table.""")

NOT_TEXT = Code("R106", "not_text", """\
The file is not UTF-8 text, or holds control characters. Save it as UTF-8 without them.""")

NOT_A_RECORD = Code("R107", "not_a_record", """\
A record file holds one mapping of keys to values and nothing else: it is not empty, not a list and not several
documents.""")

UNKNOWN_FOLDER = Code("R108", "unknown_folder", """\
A folder of content is named after a record kind in the plural, such as panels or seams. Files in any other folder
would silently be left out of the book, so they are refused.""")

BAD_FILE_NAME = Code("R109", "bad_file_name", """\
A record's file name is its identity: lower-case words joined by hyphens, ending in .yaml, such as
rocker-lower.yaml. Pages of prose end in .md. It has at most 80 letters and is no name that Windows keeps for a
device, such as con or aux: its page must lie on every phone and USB stick.""")

UNREADABLE = Code("R110", "unreadable", """\
The file is there but could not be read: it is no ordinary file, it leads out of its layer, or it may not be
opened.""")

ODD_KEY = Code("R111", "odd_key", """\
A key is a list, a mapping or a multi-line text. Keys are plain words.""")

OVERRIDE_MOVED = Code("R112", "override_moved", """\
A record of the shop takes the place of a supplied one, and that one has changed since the shop's was made from it: a
figure was mended, a step was added. What changed stands with the message. Take it over into the shop's record or leave
it; then type `seambook confirm KIND ID`, which keeps a copy of the record as it is now in the hidden folder .taken-from
of the shop's own records.""")

OVERRIDE_UNNOTED = Code("R113", "override_unnoted", """\
A record of the shop takes the place of a supplied one, and no copy of that one is kept, so nobody would be told when it
changes. Compare the two, then type `seambook confirm KIND ID`, which keeps the copy in the hidden folder .taken-from
of the shop's own records. `seambook write KIND ID` does so by itself.""")

STRAY_PICTURE = Code("R114", "stray_picture", """\
A picture file lies among the records and no record shows it, so nobody would see it, and nobody says in words what is
on it. Write the record that shows it, named as the picture is, or take the picture away.""")

NO_HEAD = Code("R115", "no_head", """\
A page of prose begins with a head: a line of three hyphens, its keys, which are title and where they apply was and
sources, and another line of three hyphens. Without it the page has no title to be listed and found by.""")

NO_TEXT = Code("R116", "no_text", """\
A page has a head and nothing below it. An empty page in the book would look as if something had been lost: write it,
or take the file away.""")

CODES = (NOT_YAML, DUPLICATE_KEY, ALIAS, TOO_DEEP, TOO_LARGE, NOT_TEXT, NOT_A_RECORD, UNKNOWN_FOLDER, BAD_FILE_NAME,
         UNREADABLE, ODD_KEY, OVERRIDE_MOVED, OVERRIDE_UNNOTED, STRAY_PICTURE, NO_HEAD, NO_TEXT)  # fmt: skip
