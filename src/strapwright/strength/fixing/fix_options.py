"""Changes that may mend a member, in the order in which a shop would try them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import Any

from attrs import evolve

from strapwright.catalog.bolts import find_grade, lowest_grade
from strapwright.catalog.steels import steels
from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.members import Members
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Bench
from strapwright.strength.fixing.fix_fits import BULGE
from strapwright.strength.fixing.fix_sizes import Sizes
from strapwright.strength.hand_figures import shown

Option = tuple[str, Members]

_GRADES = ("2", "5", "8", "5.8", "8.8", "10.9")


def thicker_noses(tooling: Tooling, sizes: Sizes) -> Iterator[tuple[str, Tooling]]:
    """Give the tooling with each thicker nose, and what to do for it."""
    members, now = tooling.members, 2 * tooling.nose.radius
    if members is None or members.nose is None:
        return
    for size, name in sizes.shafts(now):
        if tooling.nose.reach is not None and tooling.nose.reach <= size:
            return
        inside = shown(size / 2, "mm", sizes.units)
        nose = members.nose
        steel = sizes.steel_of(name)
        yield (
            (
                f"Make the nose {shown(size, 'mm', sizes.units)}{name}, now "
                f"{shown(now, 'mm', sizes.units)}; it then bends to {inside} inside"
            ),
            evolve(
                tooling,
                nose=evolve(tooling.nose, radius=size / 2),
                members=evolve(
                    members, nose=nose if steel is None else evolve(nose, material=steel)
                ),
            ),
        )


def options(bench: Bench, stated: Members, member: str, sizes: Sizes) -> Iterator[Option]:
    """Changes in the order in which a shop would try them."""
    kind, _, holds = member.partition(" of the ")
    if kind in {"weld", "bolts"}:
        yield from (_weld if kind == "weld" else _bolt)(stated, holds, sizes)
    elif member in _GROWN:
        for key, names, shaft in _GROWN[member]:
            yield from _grown(stated, key, names, sizes, shaft=shaft)
    if member == "nose":
        yield from _nose(bench, stated, sizes)
    elif member == "shoulders":
        yield from _shoulders(bench, stated, sizes)
    elif member == "guide rods":
        yield from _longer_bush(stated, sizes)
    elif member == "piston rod":
        yield from _rod(stated, sizes)


# Member -> table, sizes to grow together, and whether they are shafts.
_GROWN: Mapping[str, tuple[tuple[str, tuple[str, ...], bool], ...]] = MappingProxyType(
    {
        "carriers": (("carriers", ("thickness",), False), ("carriers", ("width",), False)),
        "carrier pins": (("carriers", ("pin",), True),),
        "push plate": (("push_plate", ("thickness",), False),),
        "die body": (
            ("body", ("cheek",), False),
            ("body", ("floor",), False),
            ("body", ("cheek", "floor"), False),
        ),
        "guide rods": (("guides", ("diameter",), True),),
        "coupling pin": (("coupling", ("pin",), True),),
    }
)


def _set(stated: Members, key: str, **values: Any) -> Members:
    return evolve(stated, **{key: evolve(getattr(stated, key), **values)})


_SPOKEN: Mapping[str, str] = MappingProxyType(
    {
        "carriers": "the carriers'",
        "push_plate": "the push plate's",
        "body": "the die body's",
        "guides": "the guide rods'",
        "coupling": "the coupling's",
    }
)


def _grown(
    stated: Members, key: str, names: tuple[str, ...], sizes: Sizes, *, shaft: bool = False
) -> Iterator[Option]:
    """Named sizes of a member, all to the next thickness or diameter above the least of them."""
    one = getattr(stated, key)
    now = [getattr(one, name) for name in names]
    if one is None or None in now:
        return
    wide = getattr(one, "width", None) or 0.0
    found = sizes.shafts(min(now)) if shaft else sizes.plates(min(now), wide)
    for size, name in found:
        words = " and ".join(names) + f" {shown(size, 'mm', sizes.units)}"
        was = ", ".join(shown(value, "mm", sizes.units) for value in now)
        values = {word: max(size, value) for word, value in zip(names, now, strict=True)}
        yield (
            f"Make {_SPOKEN[key]} {words}{name}, now {was}",
            _set(stated, key, **values),
        )


def _steps_down(now: float, least: float, units: Units) -> Iterator[float]:
    step = INCH_MM / 4 if units == "inch" else 5.0
    size = now - step
    while size >= least - 1e-9 and size > 0.0:
        yield size
        size -= step


def _nose(bench: Bench, stated: Members, sizes: Sizes) -> Iterator[Option]:
    nose = stated.nose
    if nose is None:
        return
    if nose.between is not None:
        plate = 0.0 if stated.carriers is None else stated.carriers.thickness or 0.0
        # Room for the bar and the bulge of its inside edges.
        least = bench.widest + BULGE * bench.thickness + plate
        for size in _steps_down(nose.between, least, sizes.units):
            yield (
                (
                    f"Bring the carriers to {shown(size, 'mm', sizes.units)} between their "
                    f"middles, now {shown(nose.between, 'mm', sizes.units)}"
                ),
                _set(stated, "nose", between=size),
            )
    yield from _stronger(stated, "nose", "material", "Make the nose of")


def _stronger(stated: Members, key: str, field: str, words: str) -> Iterator[Option]:
    sound = [one for one in steels() if not one.brittle]
    for steel in sorted(sound, key=lambda one: one.yield_strength):
        yield f"{words} {steel.name}", _set(stated, key, **{field: steel.name})


def _shoulders(bench: Bench, stated: Members, sizes: Sizes) -> Iterator[Option]:
    shoulders = stated.shoulders
    if shoulders is None:
        return
    if not shoulders.backed:
        if shoulders.between is not None:
            for size in _steps_down(shoulders.between, bench.widest, sizes.units):
                yield (
                    f"Bring the supports of the shoulders to {shown(size, 'mm', sizes.units)}",
                    _set(stated, "shoulders", between=size),
                )
        yield "Back the shoulders all along", _set(stated, "shoulders", backed=True)
    yield from _stronger(stated, "shoulders", "seat_material", "Make the seats of")
    yield (
        "Lay the shoulder shafts into a round seat, as blocks",
        _set(stated, "shoulders", kind="block"),
    )


def _longer_bush(stated: Members, sizes: Sizes) -> Iterator[Option]:
    guides = stated.guides
    if guides is None or guides.bush is None:
        return
    step = INCH_MM / 2 if sizes.units == "inch" else 10.0
    for count in range(1, 13):
        size = guides.bush + count * step
        yield (
            (
                f"Make the bushes {shown(size, 'mm', sizes.units)} long, now "
                f"{shown(guides.bush, 'mm', sizes.units)}"
            ),
            _set(stated, "guides", bush=size),
        )


def _rod(stated: Members, sizes: Sizes) -> Iterator[Option]:
    rod = stated.rod
    if rod is None or rod.free_length is None:
        return
    if not rod.guided and stated.guides is not None:
        yield "Let the guide rods hold the end of the ram", _set(stated, "rod", guided=True)
    for size in _steps_down(rod.free_length, rod.free_length / 2, sizes.units):
        yield (
            f"Work with the ram out by at most {shown(size, 'mm', sizes.units)}",
            _set(stated, "rod", free_length=size),
        )


def _numbered(several: Iterable[Any], holds: str) -> Iterator[tuple[int, Any]]:
    return ((n, one) for n, one in enumerate(several) if one.holds == holds)


def _replaced(several: tuple[Any, ...], number: int, **values: Any) -> tuple[Any, ...]:
    return tuple(evolve(one, **values) if n == number else one for n, one in enumerate(several))


def _weld(stated: Members, holds: str, sizes: Sizes) -> Iterator[Option]:
    for number, weld in _numbered(stated.weld, holds):
        for sixteenths in range(2, 11):
            size = INCH_MM * sixteenths / 16
            if size <= weld.size + 1e-6 or (weld.thinner is not None and size > weld.thinner):
                continue
            yield (
                (
                    f"Make the weld of the {holds} {shown(size, 'mm', sizes.units)} in its leg, "
                    f"now {shown(weld.size, 'mm', sizes.units)}"
                ),
                evolve(stated, weld=_replaced(stated.weld, number, size=size)),
            )
        for share in (1.25, 1.5, 2.0, 3.0):
            yield (
                f"Make the weld of the {holds} {share:g} times as long",
                evolve(stated, weld=_replaced(stated.weld, number, length=share * weld.length)),
            )


def _bolt(stated: Members, holds: str, sizes: Sizes) -> Iterator[Option]:
    del sizes
    for number, bolt in _numbered(stated.bolt, holds):
        # Bolts that stand against tilting come in pairs, one to a row.
        step = 2 if bolt.spacing is not None else 1
        for count in range(bolt.count + step, bolt.count + 6 * step, step):
            yield (
                f"Hold the {holds} with {count} bolts {bolt.size}, now {bolt.count}",
                evolve(stated, bolt=_replaced(stated.bolt, number, count=count)),
            )
        thread = find_thread(bolt.size, "size")
        now = find_grade(bolt.grade or lowest_grade(thread), thread, "grade")
        for name in _GRADES:
            try:
                better = find_grade(name, thread, "grade")
            except InputError:
                continue
            if better.proof > now.proof:
                yield (
                    f"Hold the {holds} with grade {name} bolts, now {now.name}",
                    evolve(stated, bolt=_replaced(stated.bolt, number, grade=name)),
                )
