"""Machining steps as sentences that begin with a verb."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from strapwright.catalog.thread_sizes import chart_drill, find_thread
from strapwright.making.cutters import HARDENED
from strapwright.making.edges.rounded_edges import EdgeMaking
from strapwright.making.joint_steps import joint_end, joint_set_up
from strapwright.making.plate_making import HoleGroup, PlateMaking, SetCut
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.shop_lengths import fine, listed, place, sixteenth, size, unit_name
from strapwright.making.threads.tap_drills import drill_deeper
from strapwright.making.tolerances import shaft_limits
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed

# Stock beyond the finished size, common practice, no source.
SAW_EACH_WAY = {"inch": 3.175, "metric": 3.0}  # mm on length and on width of a sawn plate
FACING = 0.5  # mm taken from a face that must be flat
SHAFT_ENDS = {"inch": 3.175, "metric": 2.0}  # mm on the length of a shaft, to face both ends
THIN = {"inch": INCH_MM / 4, "metric": 6.0}  # mm; strap that is used as bought
CHAMFER = {"inch": INCH_MM / 32, "metric": 1.0}  # mm on the ends of a shaft
ALIKE = 0.05  # mm between the heights of two blocks
LIGHT = 0.25  # mm under a radius gauge or a template
LAST_PASS = 0.25  # mm of a cutter that must leave a clean arc
SHEET = {"inch": INCH_MM / 16, "metric": 1.5}  # mm, of a template
SMALL = 100.0  # mm; a plate with a side below this is caught and spun by a drill

SMALL_PLATE = (
    "Clamp this small plate in a vice or to the table; never hold it by hand, the drill can grab "
    "and spin it."
)
EYES = "Wear eye protection. No gloves and no loose sleeves near a turning spindle."

_VERBS = {
    "pilot": "Drill a pilot at {}",
    "drill": "Drill {}",
    "tap drill": "Drill {} for the tap",
    "bore": "Bore {}",
    "ream": "Ream {}",
    "saw out": "Saw {} out",
    "open up": "Open {} up",
    "counterbore": "Counterbore {}",
}


@frozen(kw_only=True)
class Steps:
    """Steps of one piece, and the cautions where they bite."""

    steps: tuple[str, ...]
    cautions: tuple[str, ...]


def plate_steps(made: PlateMaking) -> Steps:
    """Say how a plate is made.

    Parameters
    ----------
    made
        As worked out.

    Returns
    -------
    Steps
        Sentences without a number; whoever prints them numbers them.
    """
    plate = made.plate
    if plate.joint and made.rows:
        steps = [*joint_set_up(made)]
    else:
        steps = [*_begin(plate, made.units)]
        steps += list(_datum(made)) if made.rows else []
    if made.rows:
        if any(group.cuts and group.cuts[0].cut.role == "centre" for group in made.groups):
            steps.append(_centred(made))
        for group in made.groups:
            steps += list(_holes(group, made))
    if made.edge is not None:
        steps += list(_rounded_edge(made.edge, made.units))
    if plate.joint and made.rows:
        return Steps(steps=(*steps, *joint_end()), cautions=tuple(_cautions(made)))
    if made.rows:
        first = made.rows[0]
        steps.append(
            f"Measure the holes before the plate leaves the table: {first.label} is "
            f"{place(first.x, made.units)} by {place(first.y, made.units)} from the datum edges."
        )
    if made.rows or not plate.piece:
        steps.append(
            "Deburr every edge and both sides of every hole." if made.rows else "Deburr every edge."
        )
    return Steps(steps=tuple(steps), cautions=tuple(_cautions(made)))


def _rounded_edge(edge: EdgeMaking, units: Units) -> Iterator[str]:
    """How the edge of a block is rounded: by a cutter of its radius, or in flats and by file."""
    radius, light = size(edge.radius, units), _thou(LIGHT, units)
    yield (
        "Clamp both blocks side by side, feet on a flat, and finish their tops to one height, "
        f"within {_thou(ALIKE, units)}: the bar lies on both."
    )
    yield (
        f"Choose the inner side of each block. Scribe {radius} down it from the upper edge, and as "
        f"far in on top, all along its length of {size(edge.length, units)}: there the round ends."
    )
    if edge.cutter:
        yield (
            f"Mill that edge with the {edge.cutter} in three passes, the last of "
            f"{_thou(LAST_PASS, units)}, until both ends of its arc meet the scribed lines."
        )
        yield (
            f"Dress both ends of the round with a stone, and check it with a radius gauge of "
            f"{radius}: no more than {light} of light anywhere and no step at either face."
        )
        return
    yield (
        f"Make a template, for the tool crib has no radius cutter of {radius}: in sheet "
        f"{_thou(SHEET[units], units)} thick scribe a "
        f"notch with square sides, drill a hole of {size(2 * edge.radius, units)} whose middle is "
        f"{radius} from both, saw the notch out along lines that touch the hole, and file to them: "
        f"a round of {radius} stays in its corner. Laid on, it touches top and inner side at once."
    )
    yield (
        "Mill or grind a flat at 45 degrees along the edge, "
        f"{_thou(edge.face_off, units)} off both faces: it is {_thou(edge.one_flat, units)} wide."
    )
    yield (
        "Mill or grind one more flat to each side of it, half-way to the face (22-1/2 degrees), "
        f"until all three are {_thou(edge.three_flats, units)} wide."
    )
    yield (
        f"File the ridges along the edge to the template, with no more than {light} of light under "
        "it anywhere and no step at either face."
    )


def _thou(mm: float, units: Units) -> str:
    """To a thousandth of an inch or a hundredth of a millimetre: ``0.220 in``."""
    return f"{place(mm, units)} {unit_name(units)}"


def shaft_steps(shaft: ShaftDrawing, units: Units) -> Steps:
    """Say how a shaft is made.

    Parameters
    ----------
    shaft
        As drawn.
    units
        In which it is told.
    """
    rough = size(sixteenth(shaft.length + SHAFT_ENDS[units], units), units)
    if shaft.hardened:
        steps = [
            f"Cut the shaft to {rough} with a cooled abrasive wheel: no saw cuts its skin.",
            f"Grind both ends square to {size(shaft.length, units)}.",
            f"Grind a chamfer of {size(CHAMFER[units], units)} on both ends.",
        ]
        cautions = [HARDENED, "A hardened shaft can shatter: never hammer it and never weld it."]
    else:
        steps = [
            f"Saw the shaft to {rough}.",
            f"Face both ends to {size(shaft.length, units)}.",
            f"Turn or file a chamfer of {size(CHAMFER[units], units)} on both ends.",
        ]
        cautions = []
    limits = shaft_limits(shaft, units) or f" {fine(shaft.diameter, units)}"
    steps.append(f"Measure the diameter at three places, twice across each:{limits}.")
    if shaft.fit and "hot rolled" in shaft.steel:
        steps.append(
            "Turn it from the next size, for a hot-rolled round is rough and seldom within these "
            "limits. Or polish it clean, measure where it is thickest, and make its holes to that "
            "with the play given."
        )
    steps += _threads(shaft, units)
    return Steps(steps=tuple(steps), cautions=(*cautions, EYES))


def _threads(shaft: ShaftDrawing, units: Units) -> Iterator[str]:
    """Threads across a round for the screws that hold it in its seat."""
    if not shaft.threads:
        return
    first = shaft.threads[0]
    places = listed([size(one.place, units) for one in shaft.threads])
    if shaft.hardened:
        yield (
            f"Grind through the hard skin where the screws go, at {places} from one end, on one "
            "line: the core under it is soft."
        )
    thread = find_thread(first.thread, shaft.name)
    drill = chart_drill(thread)
    name = fine(thread.hole(75), units) if drill is None else f"{drill.name} drill"
    yield (
        f"Drill with the {name} at {places} from one end, on one line, square to it, "
        f"{size(first.depth + drill_deeper(thread) / 2, units)} deep."
    )
    yield f"Tap {first.thread}, {size(first.depth, units)} of full thread."


def _squared(plate: PlateDrawing, units: Units) -> Iterator[str]:
    over = SAW_EACH_WAY[units]
    wide, high = (sixteenth(one + over, units) for one in (plate.width, plate.height))
    each = "Saw the plate" if plate.quantity == 1 else f"Saw {plate.quantity} plates"
    yield (
        f"{each}, {size(plate.thickness, units)} thick, to {size(wide, units)} x "
        f"{size(high, units)}: about {size(over, units)} over size each way."
    )
    if plate.thickness >= THIN[units]:
        yield (
            f"Face one side clean ({size(FACING, units)} at most) and mark it as the face of this "
            "drawing. Skip this if the plate is already flat."
        )
    yield (
        "Mill or file two edges square to each other, then the others to "
        f"{size(plate.width, units)} x {size(plate.height, units)}."
    )


def _begin(plate: PlateDrawing, units: Units) -> Iterator[str]:
    """Say how a plate comes to be on the table: sawn, stood on end, or taken off the press."""
    if plate.exists:
        yield (
            f"Take the {plate.name} off the press, this face up. It exists: saw and face nothing, "
            "drill only the holes of the table."
        )
    elif plate.piece:
        yield _set_up_again(plate)
    else:
        yield from _squared(plate, units)


def _set_up_again(plate: PlateDrawing) -> str:
    return (
        f"Stand the {plate.piece} on end in the vice, this edge up and level, its marked side to "
        "the fixed jaw."
    )


def _datum(made: PlateMaking) -> Iterator[str]:
    plate, units = made.plate, made.units
    upper, side = plate.corner.split()
    yield (
        f"Stamp the {plate.corner} corner as the datum. Measure every X from the {side} edge and "
        f"every Y from the {upper} edge."
    )
    yield (
        f"Touch off both datum edges with the {size(made.tip, units)} edge finder and set each "
        f"dial to {fine(made.tip / 2, units)} outside the edge (half the tip). Or zero the dials "
        "at touch-off and use the second pair of columns."
    )


def _centred(made: PlateMaking) -> str:
    groups = [group for group in made.groups if group.cuts and group.cuts[0].cut.role == "centre"]
    labels = [label for group in groups for label in group.labels]
    first = groups[0].cuts[0]
    small = min(group.cuts[0].cut.most for group in groups)
    width = (
        "" if small >= first.cut.cutter.diameter else f", no wider than {fine(small, made.units)}"
    )
    return f"Centre drill {listed(labels)}, {rpm_words(first.setting.rpm)}{width}."


def _holes(group: HoleGroup, made: PlateMaking) -> Iterator[str]:
    units = made.units
    hole, labels = group.hole, listed(group.labels)
    if not group.cuts:
        ways = "; or ".join(way.text for way in group.making.ways)
        yield (
            f"Find another way to make {labels}: your tool crib has no cutter for it. You could "
            f"{ways}."
        )
        return
    for one in group.cuts:
        if one.cut.role != "centre":
            yield _cut(one, group, made)
    if hole.kind == "fit":
        yield (
            f"Check {labels} with the shaft that fits: {fine(hole.least, units)} to "
            f"{fine(hole.most, units)} ({hole.fit})."
        )


def _cut(one: SetCut, group: HoleGroup, made: PlateMaking) -> str:
    units = made.units
    cut, labels, hole = one.cut, listed(group.labels), group.hole
    name = cut.cutter.name
    how = f"{rpm_words(one.setting.rpm)}, {feed_words(one.setting.feed, units)}"
    deep = "through" if hole.depth is None else f"{size(hole.depth, units)} deep"
    if cut.role == "tap":
        share = "" if group.making.percent is None else f", {group.making.percent:.0f} % of thread"
        thread = "through" if hole.depth is None else f"{size(hole.depth, units)} of full thread"
        return (
            f"Tap {labels} with the {name} by hand, started square in the spindle, {thread}{share}."
        )
    if cut.role == "tap drill" and hole.depth is not None:
        more = hole.depth + drill_deeper(find_thread(hole.thread, "thread"))
        deep = f"{size(more, units)} deep" if more < made.plate.thickness else "through"
    if cut.role == "counterbore" and hole.counterbore is not None:
        deep = f"{size(hole.counterbore[1], units)} deep"
    if cut.role == "bore":
        deep = f"to a bore of {fine(cut.least, units)} to {fine(cut.most, units)}, measured before "
        deep += "the last cut"
    after = ", without moving the table" if cut.role == "ream" else ""
    return f"{_VERBS[cut.role].format(labels)} with the {name}, {deep}, {how}{after}."


def _cautions(made: PlateMaking) -> Iterator[str]:
    plate = made.plate
    said: dict[str, None] = {}
    if made.rows and min(plate.width, plate.height) < SMALL:
        said[SMALL_PLATE] = None
    for group in made.groups:
        for note in group.making.notes:
            said[f"{listed(group.labels)}: {note}"] = None
        for one in group.cuts:
            for note in one.setting.notes:
                said[f"{one.cut.cutter.name}: {note}."] = None
        if group.making.cuts:
            for way in group.making.ways:
                said[f"{listed(group.labels)}: you could also {way.text}."] = None
    said[EYES] = None
    yield from said


def rpm_words(rpm: float) -> str:
    """Round down to what a belt or dial can be set to."""
    step = 10 if rpm < 1000 else 50
    return f"{max(step, int(rpm // step) * step)} rpm" if rpm >= step else f"{rpm:.0f} rpm"


def feed_words(feed: float, units: Units) -> str:
    """Say a feed per revolution [mm]."""
    if units == "metric":
        return f"{fixed(feed, 2)} mm/rev"
    return f"{fixed(feed / INCH_MM, 3)} in/rev"
