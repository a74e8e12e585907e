"""The words for what may be wrong with a propeller, and how it is marked. No database here."""

KINDS = {
    "bend": "Bend",
    "crack": "Crack",
    "nick": "Nick",
    "pitting": "Pitting",
    "pink": "Pink: zinc lost",
    "thin edge": "Thin edge",
    "loose bush": "Loose hub bush",
    "other": "Something else",
}
SEVERITIES = {"stop": "Stop: it must not turn", "watch": "Watch it", "note": "Note only"}
SIDES = {"face": "Face, the aft side", "back": "Back, the forward side", "hub": "Hub"}
HEARD = {"rings": "Rings clear", "dull": "Dull thud"}
RADII = (0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.0)  # over the tip's: near the hub to the tip
SPOTS = (0.3, 0.5, 0.7, 0.9)  # what a thumb can hit on the picture


def near(radius_ratio: float) -> str:
    """Where along the blade, in words."""
    if radius_ratio <= 0.2:
        return "at the root"
    return "at the tip" if radius_ratio >= 1 else f"at {radius_ratio:g} R"
