"""What an act leaves owed, as the trade tells it, and what a step must carry to be worth anything."""

from __future__ import annotations

from typing import NamedTuple

from tests.mutation.guards import CUTS, HOT


class Debt(NamedTuple):
    """Something that must be done after an act, and hold at the end."""

    name: str
    acts: str
    payers: str
    spoilers: str
    """What undoes the payment again."""
    danger: str
    whose: str = "body"
    when: str = ""
    once: bool = False
    """Whether one payment is enough, however often it is owed again."""


DEBTS = (
    Debt("fire watch", f"{HOT} weld-coupon", "fire-watch", "", "Foam smoulders for hours and the shop burns."),
    Debt("joint welded", "free-welds", "weld-final bond", "free-welds", "The part comes off on the road.",
         whose="panels"),
    Debt("planned weld made", "weld-tack mark-welds prime-weld-through", "weld-final", "free-welds",
         "A lap that holds by primer alone.", whose="own", once=True),
    Debt("cut closed", CUTS, "weld-final bond", CUTS, "A hole in the shell, or a part that is laid on.", whose="own"),
    Debt("bead", "weld-final strip-sealer bond", "bead", "dress clean-bare free-welds heat-metal",
         "The lap drinks water.", whose="own", when="sealed"),
    Debt("welds looked at", "weld-final", "look-at-welds", "", "Nobody knows that a weld did not hold.", whose="own"),
    Debt("wax", "weld-final", "wax-cavity", "weld-tack heat-metal bake", "The box rots from the weld burns.",
         whose="cavities"),
    Debt("drains open", "weld-final bead coat-inside wax-cavity", "prove-drains", "", "A box that cannot drain rots.",
         whose="cavities", when="drains"),
    Debt("back coated", "weld-final", "coat-back", "heat-metal", "The burnt back rusts.", whose="own",
         when="closes-nothing"),
    Debt("fuel tight", "open-fuel", "close-fuel", "", "The car burns."),
    Debt("belts", "belts-off", "belts-on", "", "A belt lets go."),
    Debt("lamps", "lamps-off", "aim-lamps", "", "The lamp lights nothing or blinds who comes."),
    Debt("wheel", "wheel-off", "wheel-on", "", "A wheel comes off."),
    Debt("alignment", "pull", "check-alignment", "", "The car steers by itself.", when="load-subject"),
    Debt("opening true", "weld-final", "measure", f"weld-tack pull {CUTS}",
         "What the welds drew is found by the customer.", whose="openings"),
    Debt("gaps read", "weld-final", "fit-check", "pull", "A door that does not latch.", whose="openings"),
    Debt("measured after the pull", "pull", "measure", "", "A body that is not true goes out.", whose="own",
         when="load"),
    Debt("brackets over", "record-brackets", "transfer-brackets", "", "A loose hose or wire.", whose="own"),
    Debt("adhesive cured", "bond", "let-cure", "", "The joint opens while it is soft.", whose="own"),
)  # fmt: skip

CARRIES = {
    "measure": ("measure", "Nobody can say what was read."),
    "fit-check": ("measure", "A gap that nobody wrote down was not read."),
    "take-climate": ("measure", "The panel was wet and nobody knows."),
    "last-look": ("hold photo", "The box is closed on what nobody saw."),
    "fire-watch": ("attended", "Nobody was there when it caught."),
    "isolate-battery": ("wait", "A restraint that still holds its charge fires."),
    "weld-final": ("method", "Nobody can say which coupon speaks for it."),
    "weld-coupon": ("method", "It proves nothing."),
}
"""By act: what its step must carry, and what becomes of it otherwise."""
