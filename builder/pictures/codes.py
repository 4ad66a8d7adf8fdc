"""The problems that pictures can have."""

from __future__ import annotations

from builder.model.problem import Code

MISSING = Code("P601", "picture_missing", """\
A figure's picture file is not beside its record, or cannot be read. It lies in the same folder and is named as the
record is, with its own ending: rocker-cut.svg beside rocker-cut.yaml; or the record says its name under file.""")

TWO_PICTURES = Code("P602", "two_pictures", """\
Several files beside a figure's record are named as it is, and which one is meant cannot be told. Keep one of them, or
say its name under file.""")

TOO_LARGE = Code("P603", "picture_too_large", """\
A picture is larger than any phone or camera of the shop makes them: in bytes, in pixels, or unpacked. A small file can
say that it is huge and would then fill the memory. Save it smaller; 4000 pixels on its longer side are plenty.""")

MISLABELLED = Code("P604", "picture_mislabelled", """\
What is in a picture's file is not what its ending says, or is no kind of picture that every phone can show. Photos are
JPEG or WebP, drawings SVG or PNG. Give the file its right ending, or save it as one of these.""")

BROKEN = Code("P605", "picture_broken", """\
A picture's file is damaged or ends too early, so that part of it could not be shown. Copy it again from where it came
from. An SVG must be well-formed XML and have the namespace of SVG.""")

MOVING = Code("P606", "moving_picture", """\
A picture holds several frames and would move on the page. It cannot be printed, and a reader cannot stop it. Save the
one frame that shows what is meant, or several figures.""")

UNSAFE_DRAWING = Code("P607", "unsafe_drawing", """\
An SVG drawing holds something beside lines, shapes and text: a script, an event, a link, a picture or a style from
elsewhere, foreign content, a document type or entities. A drawing is only looked at, and it must look the same on every
phone without the network. Take out what the message names; most editors can save a plain SVG.""")

NO_SIZE = Code("P608", "drawing_without_size", """\
An SVG drawing does not say how large it is, so that the page would jump when it is loaded. Its outermost element needs
a viewBox of four numbers, or a width and a height in pixels.""")

CODES = (MISSING, TWO_PICTURES, TOO_LARGE, MISLABELLED, BROKEN, MOVING, UNSAFE_DRAWING, NO_SIZE)
