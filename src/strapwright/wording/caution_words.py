"""Cautions beside the figure that they belong to, the same on page, command and paper."""

from __future__ import annotations

SAFETY = "Safety first"  # heads the cautions everywhere
ESTIMATE = "A planning estimate, not a certification. Local codes and licensed practice come first."
NEVER_ABOVE = (
    "Never go above the relief setting or the rating of the weakest member of press, hoses and "
    "tooling."
)
# A bar under load can jump, and a reader leans in.
READ_LOADED = "read it only with the pump off, from outside the tooling"
HANDS = "Hands out from between nose, bar and shoulders; stand clear of the ends of the bar."
REACH_IN = "Release all pressure and block the ram before you reach in."
LOADED = f"Under load: {READ_LOADED}."
STALL = (
    "To stall the ram without harm: put a solid block of mild steel in the middle of the "
    "shoulders. It must be wider than the bar; never use a part or a hardened shaft. Set the "
    "relief valve to its lowest and stand behind a shield, hands out. Bring the ram on slowly. "
    "Raise the pressure no further than relief setting and weakest member allow, and read from "
    "outside with the pump off. Release all pressure after ten seconds at most, because oil over "
    "the relief valve gets hot."
)
