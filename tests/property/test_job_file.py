"""Job files: what is written reads back the same, and what is typed stays."""

import math
from collections.abc import Callable, Mapping

from hypothesis import example, given
from hypothesis import strategies as st

from strapwright.catalog import materials
from strapwright.errors import InputError
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.job import BlankSettings, HitSettings, Job
from strapwright.shop.part import Bend, Closing, Hole, Part, Weld
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.shop_files.reading_job import files_named, read_job
from strapwright.shop_files.template import new_job_text
from strapwright.shop_files.updating import update_job
from strapwright.shop_files.writing import write_job

MOST_HOLES = 3


def floats(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_subnormal=False)


def lengths(low: float = 0.02, high: float = 90_000) -> st.SearchStrategy[float]:
    """Any float, sixty-fourths of an inch, tenths of a millimetre [mm]."""
    inches = st.integers(1, 64 * 100).map(lambda n: n / 64 * 25.4)
    tenths = st.integers(1, 20_000).map(lambda n: n / 10)
    return st.one_of(
        floats(low, high), *(one.filter(lambda x: low <= x <= high) for one in (inches, tenths))
    )


def zero_or(strategy: st.SearchStrategy[float]) -> st.SearchStrategy[float]:
    return st.one_of(st.just(0.0), strategy)


def maybe(strategy: st.SearchStrategy[float]) -> st.SearchStrategy[float | None]:
    return st.one_of(st.none(), strategy)


angles = st.one_of(
    floats(math.radians(0.02), math.radians(179.9)), st.integers(1, 179).map(math.radians)
)
names = st.text(min_size=1, max_size=80).filter(lambda text: text.isprintable()).map(str.strip)


@st.composite
def bars(draw: st.DrawFn) -> Bar:
    section = draw(st.sampled_from(["flat", "square", "round"]))
    thickness = draw(lengths(1, 60))
    width = draw(lengths(1, 200)) if section == "flat" else thickness
    thickness, width = sorted((thickness, width))
    return Bar(section=section, thickness=thickness, width=width)


@st.composite
def holes(draw: st.DrawFn, bar: Bar, legs: list[float]) -> Hole:
    leg = draw(st.integers(1, len(legs)))
    length = legs[leg - 1]
    beside: list[int | None] = [bend for bend in (leg - 1, leg) if 1 <= bend < len(legs)]
    from_bend = draw(st.sampled_from([*beside, *([None] if len(beside) == 1 else [])]))
    distance = draw(floats(0.6 * length, length))
    diameter = draw(floats(0.02, 0.8 * min(bar.width, length)))
    room = (bar.width - diameter) / 2
    across = draw(zero_or(st.one_of(floats(0.01 * room, room), floats(-room, -0.01 * room))))
    return Hole(leg=leg, from_bend=from_bend, distance=distance, diameter=diameter, across=across)


@st.composite
def lots(draw: st.DrawFn, bar: Bar) -> Lot:
    yield_strength = draw(maybe(floats(10, 1500)))
    tensile = draw(maybe(floats(10 if yield_strength is None else 1.01 * yield_strength, 3000)))
    return Lot(
        yield_strength=yield_strength,
        tensile_strength=tensile,
        exponent=draw(maybe(floats(0.001, 0.6))),
        plateau=draw(maybe(floats(0.001, 0.05))),
        upper_yield=draw(maybe(floats(10, 1500))),
        unloading_ratio=draw(maybe(floats(0.001, 1))),
        thickness=draw(maybe(floats(0.76 * bar.thickness, 1.24 * bar.thickness))),
    )


@st.composite
def rolls(draw: st.DrawFn, bar: Bar, bends: int) -> tuple[float, ...]:
    """Turns about itself that the section allows; none before the first bend."""
    if bar.section == "flat" or bends < 2:
        return ()
    quarters = st.sampled_from([0, 90, -90, 180]).map(math.radians)
    turn = quarters if bar.section == "square" else st.one_of(quarters, angles)
    found = (0.0, *draw(st.lists(turn, min_size=bends - 1, max_size=bends - 1)))
    return found if any(found) else ()


@st.composite
def parts(draw: st.DrawFn) -> Part:
    bar = draw(bars())
    legs = draw(st.lists(lengths(1), min_size=2, max_size=6))
    count = len(legs) - 1
    bend = st.builds(Bend, angle=angles, side=st.sampled_from([1, -1]), radius=maybe(lengths()))
    close = st.builds(
        Closing,
        kind=st.sampled_from(["gap", "overlap", "weld gap"]),
        size=lengths(),
        absorb=st.integers(1, len(legs)),
    )
    holes_ = draw(st.lists(holes(bar, legs), max_size=MOST_HOLES))
    return Part(
        name=draw(names.filter(bool)),
        quantity=draw(st.integers(1, 10_000)),
        bar=bar,
        material=draw(st.sampled_from([metal.name for metal in materials()])),
        lot=draw(lots(bar)),
        measured=draw(st.sampled_from(["outside", "inside", "centre"])),
        legs=tuple(legs),
        bends=tuple(draw(st.lists(bend, min_size=count, max_size=count))),
        holes=tuple(holes_),
        inside_radius=draw(maybe(lengths())),
        order=draw(st.one_of(st.none(), st.permutations(range(1, count + 1)).map(tuple))),
        at_once=draw(st.integers(1, 20)),
        stacked=draw(st.integers(1, 5)),
        rolls=draw(rolls(bar, count)),
        close=draw(st.one_of(st.none(), close)),
        grain=draw(st.sampled_from(["across", "along", "unknown"])),
        edges=draw(st.sampled_from(["mill", "sheared", "flame cut"])),
        welds=tuple(
            Weld(leg=hole.leg, from_bend=hole.from_bend, distance=hole.distance) for hole in holes_
        ),
    )


@st.composite
def presses(draw: st.DrawFn) -> Press:
    bore = draw(maybe(lengths()))
    relief = draw(maybe(floats(0.01, 200)))
    return Press(
        bore=bore,
        rod=draw(maybe(lengths().filter(lambda rod: bore is None or rod < bore))),
        relief=relief,
        stroke=draw(maybe(lengths())),
        flow=draw(maybe(floats(10, 1e8))),
        efficiency=draw(floats(0.001, 1)),
        no_load=draw(zero_or(floats(0.001, 0.9 * (relief or 200)))),
        give=draw(zero_or(floats(1e-6, 1e-2))),
        gauge_step=draw(maybe(floats(0.001, 200))),
        axis=draw(st.sampled_from(["down", "up", "level"])),
        daylight=draw(maybe(lengths())),
        bed_width=draw(maybe(lengths())),
    )


@st.composite
def toolings(draw: st.DrawFn) -> Tooling:
    nose_radius, shoulder_radius = draw(lengths(1, 200)), draw(lengths(1, 200))
    web = draw(maybe(lengths(1, 500)))
    reach = draw(floats(1.01, 5)) * max(nose_radius, web or 0)
    floor = draw(st.sampled_from(["open", "flat", "vee", "channel"]))
    opening = draw(floats(2.01, 20)) * shoulder_radius
    depth = draw(lengths())
    # A file takes no length under 0.01 mm, so a tenth of the room must be that at least.
    room = min(opening - 2 * shoulder_radius, depth)
    narrow = floor == "channel" and room >= 0.1 and draw(st.booleans())
    return Tooling(
        nose=Nose(
            radius=nose_radius,
            # A web with a shaft always has a reach.
            reach=reach if web is not None else draw(st.sampled_from([None, reach])),
            web_thickness=None if web is None else draw(lengths(1, 100)),
            web_height=web,
            held=draw(
                st.sampled_from(["both ends", "one end"] if web is None else ["both ends", "web"])
            ),
            drawable=draw(st.booleans()),
            groove=draw(st.sampled_from(["none", "fitted"])),
            span=draw(maybe(lengths())),
        ),
        shoulders=Shoulders(
            radius=shoulder_radius,
            opening=opening,
            depth=depth if floor != "open" else draw(st.sampled_from([None, depth])),
            floor=floor,
            vee_angle=draw(angles) if floor == "vee" else None,
            channel_width=draw(floats(0.1, 0.9)) * (opening - 2 * shoulder_radius)
            if narrow
            else None,
            channel_walls=draw(floats(0.1, 0.9)) * depth if narrow else None,
            height=draw(
                maybe(lengths().map(lambda above: min(depth + above, 99e3)))
            ),  # no floor below the bed
            outer_edge=draw(maybe(floats(0.51 * opening, 5 * opening))),
        ),
        ram_side=draw(st.sampled_from(["nose", "shoulders"])),
        friction=draw(zero_or(floats(0.001, 0.6))),
        touch_error=draw(zero_or(lengths())),
        rating=draw(maybe(floats(10, 1e8))),
    )


@st.composite
def blanks(draw: st.DrawFn) -> BlankSettings:
    method = draw(
        st.sampled_from(["strain", "book soft", "book medium", "book hard", "din 6935", "factor"])
    )
    return BlankSettings(
        method=method,
        factor=draw(floats(0.001, 1)) if method == "factor" else None,
        reading=draw(st.sampled_from([None, "1/64", "1/32", "1/16", "decimal", "mm"])),
    )


jobs = st.builds(
    Job,
    units=st.sampled_from(["inch", "metric"]),
    part=parts(),
    press=st.one_of(st.none(), presses()),
    tooling=st.one_of(st.none(), toolings()),
    blank=blanks(),
    hits=st.builds(HitSettings, tolerance=lengths()),
)


@given(jobs)
def test_a_written_job_reads_back_as_the_same_job_and_is_written_the_same_again(job: Job) -> None:
    text = write_job(job)
    assert read_job(text) == job
    assert write_job(read_job(text)) == text


CHANGES: Mapping[str, st.SearchStrategy[object]] = {
    "part.name": names.filter(bool),
    "part.quantity": st.integers(1, 10_000),
    "part.shape[2]": st.sampled_from(["up 30", "down 60"]),
    "part.hole[1].diameter": st.sampled_from(["1/4 in", "8 mm"]),
    "part.order": st.sampled_from([[1, 2], [2, 1]]),
    "press.relief": st.sampled_from(["1500 psi", "90 bar"]),
    "press.stroke": st.none(),
    "tooling.friction": floats(0.01, 0.6),
    "tooling.nose.web.height": st.sampled_from(["2 in", "60 mm"]),
    "tooling.shoulders.floor": st.just("flat"),
    "blank.reading": st.sampled_from(["1/16", "mm"]),
    "lot.exponent": floats(0.01, 0.6),
    "lot.plateau": floats(0.001, 0.05),
    "lot.upper_yield": st.sampled_from(["50 ksi", "345 MPa"]),
}


@given(
    units=st.sampled_from(["inch", "metric"]),
    changes=st.fixed_dictionaries({}, optional=CHANGES),
)
def test_changes_are_read_and_every_other_line_stays(
    units: str, changes: dict[str, object]
) -> None:
    old = new_job_text(units)
    new = update_job(old, changes)
    before, after = old.split("\n"), new.split("\n")
    # Comments, whole lines and ends of lines, stand in their order.
    gone = "stroke" if "press.stroke" in changes else "\0"
    kept = [line for line in before if not line.startswith(gone)]
    comments = [line.partition("  # ")[2] or line for line in kept if "#" in line]
    rest = iter(after)
    for comment in comments:
        assert any(line.endswith(comment) for line in rest), comment
    # No more lines differ than were changed.
    assert len(set(before) - set(after)) <= len(changes)
    assert read_job(new) == read_job(update_job(new, changes))
    if changes.keys() & {"part.quantity"}:
        assert read_job(new).part.quantity == changes["part.quantity"]
    assert (new == old) is (not changes)


def refusal(read: Callable[[str], object], text: str) -> str:
    """The sentence, or only its full stop where the text will do."""
    try:
        read(text)
    except InputError as error:
        return str(error)
    return "."


@given(st.text())
@example("format = 1\n[part]\n")
@example('format = 1\npart = ["a"]')
@example("[part]\nhole = [1]\n[[part.hole]]")
@example("a.b = 1\n[a]\n[a.b.c]")
@example("format = 9223372036854775808")
def test_no_text_makes_anything_but_an_input_error(text: str) -> None:
    for read in (read_job, files_named):
        assert refusal(read, text).endswith((".", "?"))


any_value = st.recursive(
    st.one_of(
        st.sampled_from(["true", "0", "-1", "1e400", "nan", "1979-05-27", "9" * 400, '"up 90"']),
        st.sampled_from(['""', '"\\u0000"', '"1/0"', '"flat 1 x"', '"a.toml"']),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda items: f"[{', '.join(items)}]"),
        inner.map(lambda value: f"{{ leg = {value} }}"),
    ),
    max_leaves=4,
)  # fmt: skip


@given(units=st.sampled_from(["inch", "metric"]), line=st.integers(0, 200), value=any_value)
def test_no_value_in_any_key_makes_anything_but_an_input_error(
    units: str, line: int, value: str
) -> None:
    lines = [one for one in new_job_text(units).split("\n") if " = " in one]
    chosen = lines[line % len(lines)]
    key = chosen.removeprefix("# ").partition(" = ")[0]
    text = new_job_text(units).replace(f"\n{chosen}\n", f"\n{key} = {value}\n", 1)
    assert refusal(read_job, text).endswith((".", "?"))
