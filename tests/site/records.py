"""Small layers of content for the tests of commands: path from the layer -> YAML."""

from __future__ import annotations

LAP = "terms/lap.yaml"
OUR_LAP = {LAP: "title: Lap\nmeans: Our own words about laps, zanzibarite and all.\nsynonyms: none\n"}
MOVED = {
    LAP: "title: Lap\nmeans: One sheet on the next.\nsynonyms: none\nsee: [seem]\n",
    "terms/seam.yaml": "title: Seam\nmeans: Where sheets join.\nsynonyms: none\nwas: [seem]\n",
}
"""Sound but for a warning: a reference by a name that has moved."""
BROKEN = {LAP: "title: Lap\nmeans: One sheet on the next.\nsynonyms: none\nsee: [nowhere]\n"}
"""One error: line 4, column 7, refers to a record that is not there."""
