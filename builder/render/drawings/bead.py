"""The profile and size of a sealer bead in, its outline at the flange's edge out."""

from __future__ import annotations

from builder.render.drawings.strokes import at, shape

_DEPTHS = {"half-round": 0.5, "round": 1.0, "fillet": 1.0, "square": 1.0}
"""How far each profile stands out, as a share of its size."""
_UNKNOWN = 0.5


def depth(profile: str, size: float) -> float:
    """How far a bead of this size, in user units, stands out of the edge."""
    return _DEPTHS.get(profile, _UNKNOWN) * size


def left_of_a_step(size: float) -> float:
    """How much of a bead that is laid over the edge of a lap lies on the sheet below."""
    return size * 0.6


def over_a_step(size: float, edge: float, top: float, foot: float) -> str:
    """A bead laid over the edge of a lap, from the sheet below onto the one above, whatever its profile elsewhere."""
    left, right, crown = edge - left_of_a_step(size), edge + size * 0.4, top - size * 0.22
    return shape(
        f"M{at(left)} {at(foot)}C{at(left + size * 0.3)} {at(crown)} {at(edge)} {at(crown)} {at(right)} {at(top)}"
        f"H{at(edge)}V{at(foot)}Z",
        "sealer",
    )


def draw(profile: str, size: float, edge: float, middle: float, over: float = 0.0) -> str:
    """A bead on the edge at `edge`, centred on `middle`, over what stands out of it; without a drawing it is dashed."""
    half, out = size / 2, depth(profile, size) + over
    top, foot, left = at(middle - half), at(middle + half), at(edge - out)
    x, round_ = at(edge), f"a{at(half)} {at(half)} 0 1 1"
    outlines = {
        "half-round": f"M{x} {top}A{at(out)} {at(half)} 0 0 0 {x} {foot}Z",
        "round": f"M{at(edge - over)} {at(middle)}{round_} -{at(size)} 0{round_} {at(size)} 0Z",
        "fillet": f"M{x} {top}L{left} {foot}H{x}Z",
        "square": f"M{x} {top}H{left}V{foot}H{x}Z",
    }
    if profile in outlines:
        return shape(outlines[profile], "sealer")
    return shape(outlines["half-round"], "sealer unknown")
