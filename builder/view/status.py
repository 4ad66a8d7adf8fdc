"""The statuses of a procedure as readers see them, in the order it goes through them."""

STATUS = {
    "draft": "Draft", "checked": "Checked at the desk", "proven": "Proven on a car", "issued": "Issued",
    "withdrawn": "Withdrawn",
}  # fmt: skip
ISSUED, WITHDRAWN = "issued", "withdrawn"
"""To be worked from, what a reader takes for granted where nothing is said beside a link; and no longer."""
BANNER = {
    "draft": "Draft, not issued: for reading, not for working.",
    "checked": "Checked at the desk, not issued: for reading, not for working.",
    "proven": "Proven on a car, not issued: for reading, not for working.",
    "withdrawn": "Withdrawn: do not work from this page.",
}  # fmt: skip
"""What stands over a procedure that is not to be worked from, on the screen and on every sheet of paper."""


def standing(status: str) -> str:
    """Return the word that stands beside a procedure's title wherever it is listed; nothing beside an issued one."""
    if not status or status == ISSUED:
        return ""
    return STATUS[status].lower() if status == "withdrawn" else f"{STATUS[status].lower()}, not issued"
