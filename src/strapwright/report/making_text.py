"""A making as text for a terminal: hole tables, cutters, steps."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.findings import by_severity
from strapwright.making.assembly.piece_steels import metal_words
from strapwright.making.machining_steps import plate_steps, shaft_steps
from strapwright.making.plate_making import HoleGroup, PlateMaking
from strapwright.making.shop_lengths import hole_words, place, size, unit_name
from strapwright.making.tolerances import form_words, general_words, place_words, shaft_words
from strapwright.making.tooling_making import ToolingMaking
from strapwright.report.tooling_text import filled
from strapwright.wording.parts_list_words import HEADS, list_notes, parts_list
from strapwright.wording.reader import in_units
from strapwright.wording.severity_words import WORST_FIRST, severity_label
from strapwright.wording.telling import tell_all


def making_to_text(made: ToolingMaking) -> str:
    """Write everything: findings, each plate with holes and steps, shafts, welds, notes."""
    lines = [*_found(made)]
    for one in made.plates:
        lines += [*_plate(one), ""]
        said = plate_steps(one)
        lines += [f"{number:>3} {step}" for number, step in enumerate(said.steps, start=1)]
        lines += [f"    {note}" for note in one.plate.notes]
        lines += [f"  ! {caution}" for caution in said.cautions]
        lines.append("")
    for shaft in made.shafts:
        lines.append(f"{shaft.name}, {shaft_words(shaft, made.units)}")
        steps = shaft_steps(shaft, made.units)
        lines += [f"{number:>3} {step}" for number, step in enumerate(steps.steps, start=1)]
        lines += [f"    {note}" for note in shaft.notes]
        lines += [f"  ! {caution}" for caution in steps.cautions]
        lines.append("")
    for weld in made.welding:
        facts = "; ".join(f"{name.lower()} {value}" for name, value in weld.facts)
        lines.append(f"weld {weld.name}: {facts}")
        lines += [f"{number:>3} {step}" for number, step in enumerate(weld.steps, start=1)]
        lines += [f"  ! {caution}" for caution in weld.cautions]
        lines.append("")
    return "\n".join([*lines, *_end(made)]) + "\n"


def holes_to_text(made: ToolingMaking) -> str:
    """Write only the hole tables with their cutters."""
    lines: list[str] = []
    for one in made.plates:
        if one.rows:
            lines += [*_plate(one), ""]
    return "\n".join([*lines, *_end(made)]) + "\n"


def _found(made: ToolingMaking) -> Iterator[str]:
    """What is found, the worst first, before the first drawing."""
    told = tell_all(by_severity(made.findings), in_units(made.units))
    for severity in WORST_FIRST:
        found = [one for one in told if one.severity == severity]
        if found:
            yield severity_label(severity)
            for one in found:
                yield from filled(one.sentence, "- ")
            yield ""


def _end(made: ToolingMaking) -> list[str]:
    hours = f"{made.minutes / 60:.1f} h" if made.minutes >= 90 else f"{made.minutes:.0f} min"
    return [*_parts(made), *made.notes, f"Making takes about {hours}."]


def _parts(made: ToolingMaking) -> Iterator[str]:
    """The parts list, numbered as in the drawing."""
    if made.assembly is None:
        return
    rows = [HEADS, *parts_list(made.assembly, made.units)]
    wide = [max(len(row[n]) for row in rows) for n in range(len(HEADS))]
    yield "parts list, numbered as in the drawing"
    for row in rows:
        cells = (cell.ljust(room) for cell, room in zip(row, wide, strict=True))
        yield ("  " + "  ".join(cells)).rstrip()
    yield from (f"  {one}" for one in list_notes(made.assembly, made.units))
    yield ""


def _plate(made: PlateMaking) -> Iterator[str]:
    plate, units = made.plate, made.units
    yield (
        f"{plate.title}, qty {plate.quantity}: {size(plate.width, units)} x "
        f"{size(plate.height, units)}, {size(plate.thickness, units)} "
        f"{'deep' if plate.piece else 'thick'}, {metal_words(plate, units)}"
    )
    largest = max(plate.width, plate.height, plate.thickness)
    yield f"  {general_words(largest, units)}"
    yield f"  {form_words(plate, units)}"
    if not made.rows:
        return
    yield (
        f"  From the {plate.corner} corner [{unit_name(units)}]; the second pair from where a tip "
        f"of {size(made.tip, units)} touches."
    )
    yield f"  {'hole':<5}{'X':>9}{'Y':>9}{'X touch':>10}{'Y touch':>10}{'within':>11}  what it is"
    for row in made.rows:
        yield (
            f"  {row.label:<5}{place(row.x, units):>9}{place(row.y, units):>9}"
            f"{place(row.touch_x, units):>10}{place(row.touch_y, units):>10}"
            f"{place_words(row.hole, plate, units):>11}  "
            f"{hole_words(row.hole, units)}"
        )
    for group in made.groups:
        yield from _group(group)


def _group(group: HoleGroup) -> Iterator[str]:
    labels = group.labels
    label = labels[0] if len(labels) == 1 else f"{labels[0]} to {labels[-1]}"
    if not group.cuts:
        yield f"  {label}: your tool crib has no cutter for it"
        for way in group.making.ways:
            yield f"    {way.kind}: {way.text}"
        return
    percent = group.making.percent
    thread = "" if percent is None else f" ({percent:.0f} % of thread)"
    yield f"  {label}: {', '.join(one.cut.cutter.name for one in group.cuts)}{thread}"
