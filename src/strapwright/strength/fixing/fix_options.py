"""Changes that may fix a member, in the order in which a shop would try them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import Any

from attrs import evolve

from strapwright.catalog.bolts import find_grade, lowest_grade
from strapwright.catalog.steels import steels
from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.findings import Choice, Count, Fact, Length, Name, Yes
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.member_names import BOLTS, WELDS, MemberName
from strapwright.shop.members import Bolt, Holds, Members
from strapwright.shop.rack import Stock
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Bench
from strapwright.strength.fixing.fix_fits import BULGE
from strapwright.strength.fixing.fix_sizes import Sizes
from strapwright.strength.fixing.fix_values import KeyChange

Option = tuple[KeyChange, Members]

_MEMBERS = "tooling.members"

_GRADES = ("2", "5", "8", "5.8", "8.8", "10.9")


def thicker_noses(tooling: Tooling, sizes: Sizes) -> Iterator[tuple[KeyChange, Tooling]]:
    """Give the tooling with each thicker nose, and what is changed for it."""
    members, now = tooling.members, tooling.nose.radius
    if members is None or members.nose is None:
        return
    for size, piece in sizes.shafts(2 * now):
        if tooling.nose.reach is not None and tooling.nose.reach <= size:
            return
        nose = members.nose
        yield (
            KeyChange(
                table="tooling.nose",
                names=("radius",),
                to=Length(size / 2),
                now=(Length(now),),
                stock=_name(piece),
            ),
            evolve(
                tooling,
                nose=evolve(tooling.nose, radius=size / 2),
                members=evolve(
                    members,
                    nose=nose if piece is None else evolve(nose, material=piece.material),
                ),
            ),
        )


def _name(piece: Stock | None) -> str | None:
    return None if piece is None else piece.name


def options(bench: Bench, stated: Members, member: MemberName, sizes: Sizes) -> Iterator[Option]:
    """Changes in the order in which a shop would try them."""
    for holds in WELDS:
        if member == WELDS[holds]:
            yield from _weld(stated, holds)
        elif member == BOLTS[holds]:
            yield from _bolt(stated, holds)
    for key, names, shaft in _GROWN.get(member, ()):
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
_GROWN: Mapping[MemberName, tuple[tuple[str, tuple[str, ...], bool], ...]] = MappingProxyType(
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


def _set(stated: Members, table: str, key: str, to: Fact, now: Fact | None = None) -> Option:
    """KeyChange one key of a member to what a fact holds."""
    changed = evolve(getattr(stated, table), **{key: _held(to)})
    return (
        KeyChange(
            table=f"{_MEMBERS}.{table}", names=(key,), to=to, now=() if now is None else (now,)
        ),
        evolve(stated, **{table: changed}),
    )


def _held(fact: Fact) -> object:
    """What a key holds for a fact."""
    if isinstance(fact, Length | Count | Yes | Name | Choice):
        return fact.value
    raise TypeError(f"no key holds {fact!r}")


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
    for size, piece in found:
        values = {word: max(size, value) for word, value in zip(names, now, strict=True)}
        yield (
            KeyChange(
                table=f"{_MEMBERS}.{key}",
                names=names,
                to=Length(size),
                now=tuple(Length(value) for value in now),
                stock=_name(piece),
            ),
            evolve(stated, **{key: evolve(one, **values)}),
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
            yield _set(stated, "nose", "between", Length(size), Length(nose.between))
    yield from _stronger(stated, "nose", "material")


def _stronger(stated: Members, table: str, key: str) -> Iterator[Option]:
    sound = [one for one in steels() if not one.brittle]
    for steel in sorted(sound, key=lambda one: one.yield_strength):
        yield _set(stated, table, key, Name(steel.name))


def _shoulders(bench: Bench, stated: Members, sizes: Sizes) -> Iterator[Option]:
    shoulders = stated.shoulders
    if shoulders is None:
        return
    if not shoulders.backed:
        if shoulders.between is not None:
            for size in _steps_down(shoulders.between, bench.widest, sizes.units):
                yield _set(stated, "shoulders", "between", Length(size))
        yield _set(stated, "shoulders", "backed", Yes(value=True))
    yield from _stronger(stated, "shoulders", "seat_material")
    yield _set(stated, "shoulders", "kind", Choice("block"))


def _longer_bush(stated: Members, sizes: Sizes) -> Iterator[Option]:
    guides = stated.guides
    if guides is None or guides.bush is None:
        return
    step = INCH_MM / 2 if sizes.units == "inch" else 10.0
    for count in range(1, 13):
        yield _set(
            stated, "guides", "bush", Length(guides.bush + count * step), Length(guides.bush)
        )


def _rod(stated: Members, sizes: Sizes) -> Iterator[Option]:
    rod = stated.rod
    if rod is None or rod.free_length is None:
        return
    if not rod.guided and stated.guides is not None:
        yield _set(stated, "rod", "guided", Yes(value=True))
    for size in _steps_down(rod.free_length, rod.free_length / 2, sizes.units):
        yield _set(stated, "rod", "free_length", Length(size))


def _numbered(several: Iterable[Any], holds: str) -> Iterator[tuple[int, Any]]:
    return ((n, one) for n, one in enumerate(several) if one.holds == holds)


def _fastened(stated: Members, table: str, number: int, key: str, to: Fact, now: Fact) -> Option:
    """KeyChange one key of a weld or of bolts, by their place among those stated."""
    several: Any = list(getattr(stated, table))
    one = several[number]
    several[number] = evolve(one, **{key: _held(to)})
    changed: dict[str, Any] = {table: tuple(several)}
    return (
        KeyChange(
            table=f"{_MEMBERS}.{table}",
            names=(key,),
            to=to,
            now=(now,),
            number=number + 1,
            holds=one.holds,
            thread=one.size if isinstance(one, Bolt) else None,
        ),
        evolve(stated, **changed),
    )


def _weld(stated: Members, holds: Holds) -> Iterator[Option]:
    for number, weld in _numbered(stated.weld, holds):
        for sixteenths in range(2, 11):
            size = INCH_MM * sixteenths / 16
            if size <= weld.size + 1e-6 or (weld.thinner is not None and size > weld.thinner):
                continue
            yield _fastened(stated, "weld", number, "size", Length(size), Length(weld.size))
        for share in (1.25, 1.5, 2.0, 3.0):
            to, now = Length(share * weld.length), Length(weld.length)
            yield _fastened(stated, "weld", number, "length", to, now)


def _bolt(stated: Members, holds: Holds) -> Iterator[Option]:
    for number, bolt in _numbered(stated.bolt, holds):
        # Bolts that stand against tilting come in pairs, one to a row.
        step = 2 if bolt.spacing is not None else 1
        for count in range(bolt.count + step, bolt.count + 6 * step, step):
            yield _fastened(stated, "bolt", number, "count", Count(count), Count(bolt.count))
        thread = find_thread(bolt.size, "size")
        now = find_grade(bolt.grade or lowest_grade(thread), thread, "grade")
        for name in _GRADES:
            try:
                better = find_grade(name, thread, "grade")
            except InputError:
                continue
            if better.proof > now.proof:
                yield _fastened(stated, "bolt", number, "grade", Name(name), Name(now.name))
