"""What guards what, as the trade tells it: no rule of the book is read for it.

A guard stands before an act and holds until something takes it away. What is only a nuisance - a scratch, a second
cleaning, an unpaid hour - is not here: each line says what would become of the car or of somebody.
"""

from __future__ import annotations

from typing import NamedTuple

WELDS = "weld-tack weld-final"
SPARKS = "cut-out section-cut free-welds dress clean-bare fill-holes relieve-layer trim"
HOT = f"{WELDS} weld-inner-pair heat-metal {SPARKS}"
"""On the car; a coupon is welded at the bench."""
CUTS = "cut-out section-cut"
WET = ("degrease prime-weld-through prime-epoxy prime-etch prime-part coat-inside coat-back encapsulate stone-guard "
       "paint wax-cavity open-fuel")  # fmt: skip
SHIFTS = "pull trim unclamp lift-off work-metal unbrace"
"""After these nothing lies where it was read."""
DIRTIES = "drill-plug-holes straighten-flange free-welds dress fill-holes relieve-layer heat-metal"


class Guard(NamedTuple):
    """One safeguard."""

    name: str
    acts: str
    """What must not be done without it."""
    ways: tuple[tuple[str, str], ...]
    """Acts that give it, and acts that take it away; one way is enough. A mark after an act - with holes made."""
    danger: str
    whose: str = "body"
    """`own`, or the `openings` or `cavities` that the act's subject has to do with."""
    when: str = ""
    """Words of `dangers.WHEN`; `had:` and an act - where the procedure had it before anything was changed."""
    at_first: bool = False
    """Whether it holds before anything was done: what guards is that some danger is not about."""
    by_method: bool = False
    """What gives it joins by the same method as the act."""


JIG = ("set-on-jig", "take-off-jig")
GUARDS = (
    Guard("battery off, arc", f"{WELDS} weld-inner-pair fill-holes",
          (("isolate-battery confirm-dead", "reconnect-battery"),),
          "Welding current through the body fires a restraint into a face or kills a control unit."),
    Guard("battery off, cut", f"{CUTS} open-fuel", (("isolate-battery confirm-dead", "reconnect-battery"),),
          "The blade meets a live wire, or a relay sparks in fuel vapour: fire."),
    Guard("battery off, belts", "belts-off belts-on", (("isolate-battery confirm-dead", "reconnect-battery"),),
          "A tensioner fires into a hand."),
    Guard("belts out", HOT, (("belts-off", "belts-on"),), "Webbing that was hot tears in a crash.",
          when="had:belts-off"),
    Guard("flammables out", HOT, (("strip-out", "refit wax-cavity close-fuel"),),
          "Trim, foam and wax behind the sheet catch fire out of sight."),
    Guard("fuel out", HOT, (("open-fuel", "close-fuel"),), "A line full of fuel lies in the heat.",
          when="had:open-fuel"),
    Guard("no vapour, heat", f"{HOT} weld-coupon", (("flash-off", WET),), "Flash fire.", at_first=True),
    Guard("no vapour, battery", "reconnect-battery", (("flash-off", WET),),
          "The terminal sparks in vapour: flash fire.", at_first=True),
    Guard("no chlorine", f"{WELDS} weld-coupon weld-inner-pair fill-holes heat-metal",
          (("clear-chlorinated", "wash-chlorinated"),), "The arc turns its vapour into a gas that kills.",
          at_first=True),
    Guard("fuel closed before battery", "reconnect-battery", (("close-fuel", "open-fuel"),),
          "The pump primes itself and pours fuel out of the open end.", at_first=True),
    Guard("watched before fuel", "close-fuel", (("fire-watch", f"{HOT} weld-coupon"),),
          "What still glows gets the first drop of fuel.", at_first=True),
    Guard("watched before wax", "wax-cavity", (("fire-watch", f"{HOT} weld-coupon"),),
          "Wax mist meets what still glows.", at_first=True),
    Guard("old part off", f"{CUTS} lift-off", (("unclamp", "hang"),), "The blade goes into the new part.", whose="own",
          at_first=True),
    Guard("sealer off", "strip-sealer", (("", f"{WELDS} clean-bare"),), "It burned in the arc: poison and pores.",
          whose="own", at_first=True),
    Guard("watched before night", "new-day", (("fire-watch", f"{HOT} weld-coupon"),), "The shop burns in the night.",
          at_first=True),
    Guard("opening measured", CUTS, (("measure", "pull"),),
          "No dimension to come back to: the door never fits again.", whose="openings"),
    Guard("load panel measured", CUTS, (("measure", "pull"),), "The new part is set by guess.", whose="own",
          when="load"),
    Guard("opening braced, lift", "lift-off", (("brace", "unbrace"), JIG), "The body closes in.", whose="openings",
          when="load"),
    Guard("opening braced, cut", CUTS, (("brace", "unbrace"), JIG), "The body closes in.",
          whose="openings"),
    Guard("load panel braced", CUTS, (("brace", "unbrace"), JIG), "The body closes in.", whose="own",
          when="load-in-body"),
    Guard("brace still in", "weld-final", (("brace", "unbrace"), JIG), "The welds fix the body where it sprang to.",
          whose="openings", when="lap opened", at_first=True),
    Guard("other side closed", f"{CUTS} free-welds", (("weld-final", f"{CUTS} free-welds"), JIG),
          "With both sides open the body folds or twists.", whose="across", when="load-bearing", at_first=True),
    Guard("closed before it leaves the jig", "take-off-jig", (("weld-final", f"{CUTS} free-welds"),),
          "The body folds as it comes off.", at_first=True),
    Guard("no sealer below a plug", WELDS, (("clean-bare", "seal-lap"),), "Its smoke blows the pool out of the hole.",
          whose="own", when="plug", at_first=True),
    Guard("section where allowed", "section-cut", (("take-maker-way", ""),), "The part fails where it was cut.",
          whose="own", when="no-zone"),
    Guard("clamped until cured", "unclamp", (("let-cure", "bond"),), "The joint opens while the adhesive is soft.",
          whose="joints", at_first=True),
    Guard("looked behind", CUTS, (("look-behind", ""),),
          "The blade goes into a wire, a line, or the sheet that stays.", whose="own"),
    Guard("pattern recorded", "strip-sealer", (("record-pattern", ""),), "The new bead blocks a drain.", whose="own"),
    Guard("brackets recorded", "lift-off scrap transfer-brackets", (("record-brackets", ""),),
          "A hose clip goes on from memory and rubs through.", whose="own", when="carries"),
    Guard("clean below the film", "prime-weld-through seal-lap bond",
          (("clean-bare scuff-zinc", f"{DIRTIES} work-metal"),), "Rust and oil stay in the lap for good.",
          whose="own"),
    Guard("film in the lap", "weld-final",
          (("prime-weld-through scuff-zinc", f"{DIRTIES} work-metal deburr"), ("bond", "let-cure")),
          "The mating faces rust from the first day and are never reached again.", whose="own", when="lap filmed"),
    Guard("clean weld", "weld-final", (("clean-bare scuff-zinc", f"{DIRTIES} work-metal"),),
          "Pores and cracks in the weld.", whose="own", when="unfilmed"),
    Guard("nothing wrong on the face", WELDS, (("clean-bare", "prime-epoxy prime-etch encapsulate"),),
          "Pores that nobody sees.", whose="own", at_first=True),
    Guard("coupon", "weld-final", (("weld-coupon", "change-setup new-day"),),
          "Welds that hold nothing and look sound.", whose="own", by_method=True),
    Guard("plug holes", "weld-final", (("drill-plug-holes use-holes", ""),), "Plugs that lie on the sheet.",
          whose="own", when="plug"),
    Guard("sheets tight", WELDS,
          (("check-tight", "hang unclamp trim straighten-flange drill-plug-holes bond seal-lap"),),
          "The weld burns through or holds the sheets apart.", whose="own", when="lap"),
    Guard("fit before tack", "weld-tack", (("fit-check", SHIFTS),), "The part is fixed where nothing fits.",
          whose="openings"),
    Guard("fit before weld", "weld-final", (("fit-check", f"{SHIFTS} weld-tack"),),
          "The part is fixed where nothing fits.", whose="openings"),
    Guard("inside provided for", "weld-final", (("coat-inside prove-wax-entries", "heat-metal"),),
          "The box rots from inside.", whose="cavities", when="out-of-reach"),
    Guard("last look", "weld-final",
          (("last-look", f"{CUTS} clean-bare drill-plug-holes free-welds relieve-layer place-inside"),),
          "Swarf rusts and a rag burns in a box that is never opened again.", whose="cavities", when="out-of-reach"),
    Guard("furnished", "weld-final", (("place-inside", ""),),
          "A reinforcement, a nut or a clip is left out for good.", whose="cavities",
          when="out-of-reach lives-inside"),
    Guard("coat cured", f"{WELDS} {SPARKS} heat-metal", (("let-cure", "coat-inside encapsulate"),),
          "The coat burns inside the box.", whose="cavities", when="seam", at_first=True),
    Guard("weld places", "weld-final", (("mark-welds", ""),), "Welds on old nuggets and over holes.", whose="own",
          when="spot-or-plug"),
    Guard("stray holes shut", "prime-weld-through weld-final",
          (("fill-holes use-holes", "free-welds! relieve-layer"),), "A leak, and plugs with nothing behind them.",
          whose="own", at_first=True),
    Guard("inner pair", WELDS, (("prove-inner-pair weld-inner-pair", ""),), "The inner sheets hold nothing.",
          whose="own", when="four"),
    Guard("welds seen", "bead prime-epoxy", (("look-at-welds", "weld-final"),),
          "A missing weld goes under the sealer.", whose="own", at_first=True),
    Guard("edge primed", "bead", (("prime-epoxy", "dress clean-bare weld-final free-welds planish heat-metal"),),
          "The sealer lets go and the joint drinks water.", whose="own"),
    Guard("climate", "prime-epoxy prime-etch prime-part encapsulate coat-inside coat-back paint stone-guard",
          (("take-climate", "new-day"),), "Water under the film: it lifts, and the sheet rusts below it."),
    Guard("ride height", "measure fit-check brace aim-lamps check-alignment",
          (("level-car support-car", "raise-car"), JIG),
          "False readings are built in, or the lamps blind who comes."),
    Guard("car held", "wheel-off", (("support-car", "raise-car"), ("raise-car", "level-car support-car"), JIG),
          "The car falls on somebody."),
    Guard("maker's way", WELDS, (("take-maker-way", ""),), "The joint breaks beside the weld.", whose="own",
          when="hard"),
    Guard("no heat on hard steel", "heat-metal", (("take-maker-way", ""),), "The part is soft for good.", whose="own",
          when="hard-panel"),
    Guard("steel asked", "pull work-metal heat-metal section-cut", (("ask-maker", ""),),
          "Steel that cracks, and nothing shows it.", whose="own", when="panel"),
    Guard("base checked", "pull", (("check-base", "rig-pull"),), "The foot of the ram buckles and parts fly."),
    Guard("line clear", "pull", (("clear-line", "rig-pull pull"),), "The chain kills who stands in line."),
    Guard("not under load", "measure fit-check brace trial-fit", (("release-load", "pull"),),
          "What is read springs back.", at_first=True),
    Guard("no brace against a pull", "pull", (("unbrace", "brace"),), "Sheet tears beside the brace.",
          whose="openings", at_first=True),
    Guard("true before unbrace", "unbrace", (("measure", f"{CUTS} {WELDS} pull"),), "What moved is never known.",
          whose="own", when="opening"),
    Guard("tried before trim", "trim", (("trial-fit", ""),), "The part is short.", whose="own"),
)  # fmt: skip
