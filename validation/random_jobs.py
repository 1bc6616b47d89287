"""Random job files, one a seed: what stands about the bar varies as much as the part.

Bars and toolings come from a short list, so that the stroke solver's answers are shared between
jobs; everything that the order and the way off depend on is drawn anew.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

INCH = 25.4
# bar as written in mm, thickness, width; nose radius, opening, shoulder radius, depth [mm]
SHOPS = (
    ("flat {} x {}", 6.0, 40.0, 9.0, 56.0, 6.0, 50.0),
    ("flat {} x {}", 5.0, 50.0, 10.0, 60.0, 8.0, 60.0),
    ("square {}", 10.0, 10.0, 10.0, 80.0, 10.0, 70.0),
    ("round {}", 10.0, 10.0, 12.0, 84.0, 10.0, 80.0),
    ("flat {} x {}", 8.0, 30.0, 12.0, 80.0, 10.0, 70.0),
    ("flat {} x {}", 4.0, 25.0, 6.0, 40.0, 5.0, 40.0),
)
ANGLES = (45, 60, 90, 110)

Written = Callable[[float], str]
Shop = tuple[str, float, float, float, float, float, float]


def job_text(seed: int) -> str:
    """Write the job file of a seed."""
    rng = np.random.default_rng(seed)
    metric = bool(rng.random() < 0.5)

    def mm(value: float) -> str:
        return f'"{value:g}"' if metric else f'"{value / INCH:.4f}"'

    shop = SHOPS[int(rng.integers(len(SHOPS)))]
    lines = ["format = 1", f'units = "{"metric" if metric else "inch"}"']
    lines += _part(rng, shop, mm)
    lines += _press(rng, mm)
    lines += _tooling(rng, shop, mm)
    # From a stream of their own: lengths along the nose, of what else goes on past the bar.
    along = np.random.default_rng((seed, 1))
    if along.random() < 0.3:
        lines = [_with_length(line, along, mm) for line in lines]
    if along.random() < 0.3:
        at = lines.index("[tooling.shoulders]") + 1
        lines.insert(at, f"length = {mm(_pick(along, shop[2] + 20.0, 200.0))}")
    return "\n".join(lines) + "\n"


def _with_length(line: str, rng: np.random.Generator, mm: Written) -> str:
    """Give a stated push plate a length along the nose."""
    if not line.startswith("plate ="):
        return line
    return line.replace(" }", f", length = {mm(_pick(rng, 60.0, 250.0))} }}")


def _pick(rng: np.random.Generator, low: float, high: float) -> float:
    """A length to the next 5 mm."""
    return float(5 * rng.integers(int(low / 5), int(high / 5) + 1))


def _part(rng: np.random.Generator, shop: Shop, mm: Written) -> list[str]:
    words, thick, wide, nose, opening = shop[:5]
    sizes = (mm(thick).strip('"'), mm(wide).strip('"'))
    bends = int(rng.choice([1, 2, 3, 4, 5], p=[0.3, 0.25, 0.2, 0.15, 0.1]))
    row = int(rng.integers(bends)) if rng.random() < 0.15 else -1
    roll = thick == wide and bends > 1 and row < 0 and rng.random() < 0.15
    low, high = 0.5 * opening + 5.0, 4.0 * opening
    shape = []
    for bend in range(bends):
        shape.append(mm(_pick(rng, low, high)))
        turn = "up" if rng.random() < 0.6 else "down"
        angle = int(rng.choice(ANGLES))
        radius = "" if bend != row else f" radius {mm(2.5 * nose)}".replace('"', "")
        if bend == row:
            angle = int(rng.choice([60, 90, 120]))
        shape.append(f'"{turn} {angle}{radius}"')
    shape.append(mm(_pick(rng, low, high)))
    if roll:
        shape.insert(3, '"roll 90"')
    if row >= 0:
        # Legs beside a row give way to its arc.
        shape[2 * row] = mm(_pick(rng, low, high) + 5.0 * nose)
        shape[2 * row + 2] = mm(_pick(rng, low, high) + 5.0 * nose)
    lines = [
        "[part]",
        'name = "dock bracket"',
        "quantity = 3",
        f'bar = "{words.format(*sizes)}"',
        'material = "A36 hot rolled"',
        f'measured = "{rng.choice(["outside", "inside", "centre"], p=[0.6, 0.2, 0.2])}"',
        f"shape = [{', '.join(shape)}]",
    ]
    if row < 0 and not roll and rng.random() < 0.15 and thick < 0.5 * wide:
        lines.append("stacked = 2")
    return lines


def _press(rng: np.random.Generator, mm: Written) -> list[str]:
    lines = ["[press]", f'axis = "{rng.choice(["down", "up", "level"])}"']
    if rng.random() < 0.6:
        lines.append(f"daylight = {mm(_pick(rng, 50, 250))}")
    if rng.random() < 0.5:
        lines.append(f"bed_width = {mm(_pick(rng, 200, 600))}")
    if rng.random() < 0.4:
        lines.append(f"columns = {{ apart = {mm(_pick(rng, 250, 900))}, width = {mm(60.0)} }}")
    if rng.random() < 0.5:
        lines.append(f"rod = {mm(_pick(rng, 25, 60))}")
    return lines


def _tooling(rng: np.random.Generator, shop: Shop, mm: Written) -> list[str]:
    _, _, wide, nose, opening, shoulder, depth = shop
    reach = _pick(rng, 2.0 * opening, 5.0 * opening)
    web = rng.random() < 0.7
    held = str(rng.choice(["both ends", "one end", "web"] if web else ["both ends", "one end"]))
    lines = ["[tooling]", f'ram_side = "{rng.choice(["nose", "shoulders"])}"']
    if rng.random() < 0.5:
        lines.append(f"plate = {{ width = {mm(_pick(rng, 30, 200))}, thick = {mm(20.0)} }}")
    lines += ["[tooling.nose]", f"radius = {mm(nose)}", f'held = "{held}"']
    if web:
        thick = float(rng.choice([0.5, 1.0, 1.5])) * nose
        lines.append(f"web = {{ thick = {mm(thick)}, height = {mm(reach - 2.0 * nose)} }}")
    if rng.random() < 0.7:
        lines.append(f"reach = {mm(reach)}")
    if rng.random() < 0.5:
        lines.append(f"span = {mm(2.0 * wide + _pick(rng, 20, 60))}")
    if rng.random() < 0.3:
        lines.append("drawable = true")
    lines += [
        "[tooling.shoulders]",
        f"radius = {mm(shoulder)}",
        f"opening = {mm(opening)}",
        f"depth = {mm(depth)}",
        f'floor = "{"flat" if rng.random() < 0.4 else "open"}"',
    ]
    if rng.random() < 0.7:
        lines.append(f"height = {mm(depth + _pick(rng, 10, 200))}")
    if rng.random() < 0.5:
        lines.append(f"outer_edge = {mm(0.5 * opening + shoulder + _pick(rng, 5, 40))}")
    return lines + _about(rng, opening, mm)


def _about(rng: np.random.Generator, opening: float, mm: Written) -> list[str]:
    """Guide rods and other things in the way."""
    lines = []
    for _ in range(int(rng.choice([0, 1, 2], p=[0.7, 0.2, 0.1]))):
        lines += [
            "[[tooling.rod]]",
            f"out = {mm(_pick(rng, opening, 4.0 * opening))}",
            f"along = {mm(_pick(rng, 0, 100))}",
            f"diameter = {mm(20.0)}",
        ]
    for number in range(int(rng.choice([0, 1, 2], p=[0.7, 0.2, 0.1]))):
        x, y = _pick(rng, 100, 300) * float(rng.choice([-1, 1])), _pick(rng, 0, 300) - 100.0
        lines += [
            "[[tooling.obstacle]]",
            f'name = "lamp {number + 1}"',
            f'side = "{rng.choice(["nose", "shoulders"])}"',
            f"box = [{', '.join(map(mm, (x, y, x + 40.0, y + 30.0)))}]",
        ]
        if rng.random() < 0.5:
            lines.append(f"along = [{mm(-10.0)}, {mm(_pick(rng, 20, 60))}]")
    return lines
