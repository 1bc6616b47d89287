"""Cautions that stand beside the figure they belong to, the same on page, command and paper."""

from __future__ import annotations

ESTIMATE = (
    "An estimate for planning, not a certification; local codes and licensed practice come first."
)
NEVER_ABOVE = (
    "Never go above the relief setting or the rating of the weakest member of press, hoses and "
    "tooling."
)
# A bar under load can jump, and a reader leans in.
READ_LOADED = "read it only with the pump off, from outside the tooling"
STALL = (
    "To stall the ram without harm: put a solid block of mild steel, wider than the bar, in the "
    "middle of the shoulders, never a part or a hardened shaft. Set the relief valve to its lowest "
    "and stand behind a shield, hands out. Bring the ram on slowly, raise the pressure no further "
    "than relief setting and weakest member allow, and read from outside with the pump off. "
    "Release all pressure after ten seconds at most, since oil over the relief valve gets hot."
)
