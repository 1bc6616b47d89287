"""What each role looks like in the dark, in daylight and on paper.

In the dark the bar glows and tools are cool outlines; in daylight and on paper the same drawing
turns to ink: the bar is the only solid, tools are hairlines with a light tint.  No role depends on
its colour alone: marks differ in stroke, and each has its word.
"""

from __future__ import annotations

from typing import Literal

from attrs import frozen

Theme = Literal["dark", "light", "paper"]
FAMILY = "'Source Sans Pro','Source Sans 3','Segoe UI','Noto Sans','DejaVu Sans',Arial,sans-serif"


@frozen(kw_only=True)
class Palette:
    """Colours of a theme."""

    ground: str
    steel: str  # outlines of tools
    quiet: str  # words, thin rules
    hair: str  # leaders
    tint: str  # inside of tools
    ink: str  # figures that are read
    warm: str  # the bar, and the one number
    core: str
    glow: str
    caution: str
    veil: str


PALETTES: dict[Theme, Palette] = {
    "dark": Palette(
        ground="#101317",
        steel="#9db1c2",
        quiet="#8e9dab",
        hair="#56636f",
        tint="#1a2027",
        ink="#e6edf3",
        warm="#ff8a33",
        core="#ffc78f",
        glow="filter:drop-shadow(0 0 5px #ff6a00b0) drop-shadow(0 0 18px #ff5a0066);",
        caution="#f2e24b",
        veil="#9db1c2",
    ),
    "light": Palette(
        ground="#f4f6f7",
        steel="#435464",
        quiet="#51606d",
        hair="#93a1ad",
        tint="#e4eaee",
        ink="#14191e",
        warm="#a83a00",
        core="none",
        glow="",
        caution="#7a5200",
        veil="#435464",
    ),
    "paper": Palette(
        ground="#ffffff",
        steel="#3a3a3a",
        quiet="#3a3a3a",
        hair="#8a8a8a",
        tint="#f0f0f0",
        ink="#000000",
        warm="#000000",
        core="none",
        glow="",
        caution="#000000",
        veil="#7a7a7a",
    ),
}


def style_of(theme: Theme) -> dict[str, str]:
    """CSS declarations by role; every role of a scene has an entry."""
    p = PALETTES[theme]
    fine = "0.75" if theme == "paper" else "1"
    tool = f"fill:{p.tint};stroke:{p.steel};stroke-width:{'1' if theme == 'paper' else '1.5'};"
    thin = f"fill:none;stroke:{p.hair};stroke-width:{fine};"

    def line(colour: str, width: str, dashes: str = "") -> str:
        dashed = f"stroke-dasharray:{dashes};" if dashes else ""
        return f"fill:none;stroke:{colour};stroke-width:{width};{dashed}"

    return {
        "bar": f"fill:{p.warm};{p.glow}",
        "bar-core": f"fill:{p.core};",
        "ghost": line(p.warm, "1.25", "5 4"),
        "face-edge": line(p.ground, "1.75"),
        "hole": f"fill:{p.ground};",
        "nose": tool,
        "web": tool,
        "plate": tool,
        "shoulders": tool,
        "floor": tool,
        "around": f"fill:{p.tint};stroke:none;",
        "around-edge": line(p.steel, fine),
        "assumed": line(p.hair, "1", "4 4"),
        "edge": line(p.ink if theme == "paper" else p.steel, fine) + "stroke-linejoin:round;",
        "balloon": f"fill:{p.ground};stroke:{p.ink};stroke-width:1.25;",
        "dot": f"fill:{p.ink};",
        "beside": line(p.hair, fine),
        "hatch": line(p.caution, "1"),
        "hatched": line(p.caution, "2") + "stroke-linejoin:round;",
        "clearance": line(p.ink, "2"),
        "touch": line(p.quiet, fine, "1 5") + "stroke-linecap:round;",
        "mark": line(p.ink, "2.5"),
        "mark-on-bar": line(p.ground, "2.5"),
        "sight-on-bar": line(p.ground, "1.5", "10 3 2 3"),
        "tangent-on-bar": line(p.ground, "1", "3 4"),
        "sight": line(p.ink, "1.25", "9 3 2 3"),
        "tangent": line(p.quiet, "1.25", "3 3"),
        "leader": thin,
        "extension": thin,
        "dimension": line(p.quiet, "1.25"),
        "paper-rule": line(p.quiet, fine),
        "grid": f"fill:none;stroke:{p.hair};stroke-width:0.5;stroke-opacity:0.5;",
        "break": line(p.quiet, "1.25"),
        "veil": f"fill:{p.veil};fill-opacity:0.22;stroke:none;",
        "curve": line(p.ink, "2.5") + "stroke-linejoin:round;stroke-linecap:round;",
        "beyond": line(p.quiet, "1.5", "2 5") + "stroke-linecap:round;",
        "stop": line(p.warm, "2"),
        "marker": f"fill:{p.warm};stroke:{p.ground};stroke-width:2;{p.glow}",
        "pause": f"fill:{p.ground};stroke:{p.ink};stroke-width:2;",
        "caution": line(p.caution, "2", "12 5"),
        "caution-mark": f"fill:{p.caution};",
        "label": f"fill:{p.quiet};",
        "tool-label": f"fill:{p.quiet};stroke:none;",
        "value": f"fill:{p.ink};font-weight:600;",
        "marked": f"fill:{p.ink};font-weight:600;",
        "figure": f"fill:{p.warm};font-weight:600;",
    }
