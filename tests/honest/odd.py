"""What is odd about each honest procedure: acts it has and acts it lacks, so that it stays what its name says."""

from __future__ import annotations

from typing import NamedTuple


class Odd(NamedTuple):
    """One odd thing that is right all the same."""

    has: frozenset[str] = frozenset()
    lacks: frozenset[str] = frozenset()


def odd(has: str = "", lacks: str = "") -> Odd:
    return Odd(frozenset(has.split()), frozenset(lacks.split()))


HOT = "weld-tack weld-final weld-coupon cut-out section-cut free-welds clean-bare dress heat-metal fill-holes"
ODD = {
    "aim-lamps-only": odd("lamps-off aim-lamps", HOT),
    "alone-on-a-floor-edge": odd("weld-final"),
    "both-gussets-on-a-jig": odd("set-on-jig cut-out weld-final", "brace"),
    "butt-in-a-door-skin": odd("weld-final planish", "prime-weld-through check-tight brace"),
    "car-without-restraints": odd("isolate-battery weld-final"),
    "clear-drains-only": odd("clear-drains prove-drains", f"{HOT} wax-cavity"),
    "dent-in-an-unhanded-skin": odd("work-metal paint", f"{HOT} measure brace"),
    "donor-lamp-panel": odd("lift-off weld-final scrap", "record-brackets transfer-brackets"),
    "encapsulate-a-box": odd("encapsulate wax-cavity", HOT),
    "foot-of-four-sheets": odd("prove-inner-pair weld-final", "weld-inner-pair"),
    "fuel-line-cold": odd("open-fuel close-fuel", f"{HOT} fire-watch strip-out"),
    "heat-by-the-makers-page": odd("take-maker-way heat-metal", "weld-final"),
    "hem-by-adhesive": odd("bond let-cure", "weld-tack weld-final weld-coupon"),
    "holes-from-the-kept-side": odd("use-holes weld-final", "drill-plug-holes fill-holes"),
    "inner-pair-made-again": odd("relieve-layer weld-inner-pair rejoin-layer weld-final", "prove-inner-pair"),
    "keep-sound-zinc": odd("scuff-zinc weld-final", "clean-bare prime-weld-through"),
    "lamp-panel-no-opening": odd("cut-out weld-final transfer-brackets", "measure brace fit-check"),
    "late-drill": odd("drill-plug-holes clean-bare weld-final"),
    "measure-only": odd("measure fit-check", f"{HOT} brace pull"),
    "no-maker-data": odd("ask-maker work-metal", HOT),
    "one-coupon-two-seams": odd("weld-coupon weld-final"),
    "patch-bare-skin": odd("cut-out weld-final", "measure brace fit-check last-look wax-cavity"),
    "plug-an-unsealed-flange": odd("weld-final coat-back", "bead strip-sealer"),
    "plugs-beside-a-fuel-line": odd("open-fuel weld-final fire-watch close-fuel"),
    "pull-before-the-brace": odd("pull release-load measure brace", HOT),
    "pull-without-welding": odd("pull release-load check-alignment", HOT),
    "renew-wax-only": odd("wax-cavity prove-drains", HOT),
    "reseal-cold": odd("strip-sealer bead leak-test", HOT),
    "respot-an-arch-flange": odd("weld-final last-look", "brace cut-out free-welds"),
    "sealer-on-bare-metal": odd("bead", "prime-epoxy"),
    "section-by-the-makers-page": odd("take-maker-way section-cut trim weld-final", "measure brace"),
    "shrink-a-mild-skin": odd("heat-metal fire-watch", "weld-final"),
    "stray-holes-filled": odd("fill-holes weld-final", "use-holes"),
    "tips-changed": odd("change-setup weld-coupon weld-final"),
    "tray-on-dead-shell": odd("confirm-dead weld-final", "isolate-battery reconnect-battery"),
    "tray-over-two-days": odd("new-day fire-watch weld-final"),
    "unknown-steel-by-the-maker": odd("take-maker-way weld-final"),
    "weld-bond-foot": odd("bond weld-final let-cure", "prime-weld-through"),
    "well-that-stays-open": odd("weld-final coat-inside", "last-look"),
    "wheel-and-belt-out-and-back": odd("wheel-off belts-off belts-on wheel-on", HOT),
    "wheel-off-on-a-lift": odd("raise-car wheel-off wheel-on", "support-car"),
    "wing-by-bolts": odd("unclamp hang fit-check", f"{HOT} lift-off"),
    "wing-with-own-clips": odd("lift-off hang fit-check scrap", f"{HOT} record-brackets"),
}
"""By procedure. The oddness itself stands in each procedure's purpose."""

SET_ASIDE = {
    "car-without-restraints": {"restraint-gets-its-time"},
    "donor-lamp-panel": {"brackets-recorded-before-scrap"},
    "sealer-on-bare-metal": {"edge-primed-before-bead"},
    "wing-with-own-clips": {"brackets-recorded-before-scrap"},
}
"""Rules that the trade itself sets aside here; each step that does so says why."""
