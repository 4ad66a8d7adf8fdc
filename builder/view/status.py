"""The statuses of a procedure as readers see them, in the order it goes through them."""

STATUS = {
    "draft": "Draft", "checked": "Checked at the desk", "proven": "Proven on a car", "issued": "Issued",
    "withdrawn": "Withdrawn",
}  # fmt: skip
ISSUED = "issued"
"""To be worked from: what a reader takes for granted where nothing is said beside a link."""
