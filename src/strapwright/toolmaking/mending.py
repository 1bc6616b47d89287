"""What mends a member that does not hold: the next size, a shorter span, another bolt."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Any

from attrs import evolve

from strapwright.catalog.bolts import find_grade, lowest_grade
from strapwright.catalog.steels import steels
from strapwright.catalog.threads import find_thread
from strapwright.errors import InputError
from strapwright.quantities import Units
from strapwright.shop.members import Members
from strapwright.shop.rack import Rack, Stock
from strapwright.toolmaking.checking import check_members
from strapwright.toolmaking.figures import shown
from strapwright.toolmaking.values import Bench, Check, Mend

Option = tuple[str, Members]

_INCH = 25.4
# Sizes that suppliers commonly keep; common practice, no source.
_PLATES = {
    "inch": tuple(_INCH * n / 16 for n in (4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 28, 32, 40, 48)),
    "metric": (6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 80.0),
}
_SHAFTS = {
    "inch": tuple(_INCH * n / 16 for n in (4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 24, 28, 32, 40)),
    "metric": (6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0),
}
_GRADES = ("2", "5", "8", "5.8", "8.8", "10.9")


class _Sizes:
    """Sizes to choose from, with what they are called on the rack."""

    def __init__(self, units: Units, rack: Rack | None) -> None:
        self.units = units
        self.rack = rack

    def plates(self, above: float, width: float = 0.0) -> Iterator[tuple[float, str]]:
        """Thicknesses above one, wide enough [mm]."""
        yield from self._from(("plate", "flat"), _PLATES[self.units], above, width)

    def shafts(self, above: float) -> Iterator[tuple[float, str]]:
        """Diameters above one [mm]."""
        yield from self._from(("shaft",), _SHAFTS[self.units], above, 0.0)

    def _from(
        self, kinds: Sequence[str], usual: Sequence[float], above: float, width: float
    ) -> Iterator[tuple[float, str]]:
        if self.rack is None:
            yield from ((size, "") for size in usual if size > above + 1e-6)
            return
        fits: list[Stock] = [
            one
            for one in self.rack.stock
            if one.kind in kinds and one.thickness > above + 1e-6 and one.width >= width - 1e-6
        ]
        for one in sorted(fits, key=lambda stock: (stock.thickness, stock.price)):
            yield one.thickness, f" ({one.name})"


def mends_of(
    bench: Bench, checks: tuple[Check, ...], units: Units, rack: Rack | None = None
) -> tuple[Mend, ...]:
    """Return a change for each member that does not hold, the weakest first.

    Parameters
    ----------
    bench
        What was checked.
    checks
        Of it.
    units
        Unit system of sizes and of the text.
    rack
        Where the next size comes from; usual sizes where not given.
    """
    failing = dict.fromkeys(check.member for check in checks if not check.holds)
    mends = []
    for member in failing:
        mend = _first_that_holds(bench, member, _Sizes(units, rack))
        if mend is not None:
            mends.append(mend)
    return tuple(mends)


def _first_that_holds(bench: Bench, member: str, sizes: _Sizes) -> Mend | None:
    stated = bench.tooling.members
    if stated is None:
        return None
    for text, changed in _options(bench, stated, member, sizes):
        tooling = evolve(bench.tooling, members=changed)
        try:
            checks, _ = check_members(evolve(bench, tooling=tooling))
        except InputError:
            continue
        own = [check.ratio for check in checks if check.member == member]
        if own and max(own) <= 1.0:
            return Mend(member=member, text=text, tooling=tooling, ratio=max(own))
    return None


def _options(bench: Bench, stated: Members, member: str, sizes: _Sizes) -> Iterator[Option]:
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
    stated: Members, key: str, names: tuple[str, ...], sizes: _Sizes, *, shaft: bool = False
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
    step = _INCH / 4 if units == "inch" else 5.0
    size = now - step
    while size >= least - 1e-9 and size > 0.0:
        yield size
        size -= step


def _nose(bench: Bench, stated: Members, sizes: _Sizes) -> Iterator[Option]:
    nose = stated.nose
    if nose is None:
        return
    if nose.between is not None:
        plate = 0.0 if stated.carriers is None else stated.carriers.thickness or 0.0
        # Room for the bar and the bulge of its inside edges.
        least = bench.widest + 0.21 * bench.thickness + plate
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


def _shoulders(bench: Bench, stated: Members, sizes: _Sizes) -> Iterator[Option]:
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


def _longer_bush(stated: Members, sizes: _Sizes) -> Iterator[Option]:
    guides = stated.guides
    if guides is None or guides.bush is None:
        return
    step = _INCH / 2 if sizes.units == "inch" else 10.0
    for count in range(1, 13):
        size = guides.bush + count * step
        yield (
            (
                f"Make the bushes {shown(size, 'mm', sizes.units)} long, now "
                f"{shown(guides.bush, 'mm', sizes.units)}"
            ),
            _set(stated, "guides", bush=size),
        )


def _rod(stated: Members, sizes: _Sizes) -> Iterator[Option]:
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


def _weld(stated: Members, holds: str, sizes: _Sizes) -> Iterator[Option]:
    for number, weld in _numbered(stated.weld, holds):
        for sixteenths in range(2, 11):
            size = _INCH * sixteenths / 16
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


def _bolt(stated: Members, holds: str, sizes: _Sizes) -> Iterator[Option]:
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
