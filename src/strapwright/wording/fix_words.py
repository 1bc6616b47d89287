"""What fixes a member that does not hold, as an order."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from strapwright.findings import Count, Fact, Length, Name
from strapwright.quantities import Units
from strapwright.strength.fixing.fix_values import Fix, KeyChange
from strapwright.strength.hand_figures import shown


def fix_order(fix: Fix, units: Units) -> str:
    """Say what to change, as one order without a full stop.

    Parameters
    ----------
    fix
        Of an assessment.
    units
        Unit system to print in.
    """
    first, *more = (_order(change, units) for change in fix.changes)
    return "".join([first, *(f"; {one[0].lower()}{one[1:]}" for one in more)])


def _order(change: KeyChange, units: Units) -> str:
    return _ORDERS[f"{change.table}.{change.names[0]}"](change, units)


def _length(fact: Fact, units: Units) -> str:
    return shown(_mm(fact), "mm", units)


def _mm(fact: Fact) -> float:
    if not isinstance(fact, Length):
        raise TypeError(f"{fact!r} is no length")
    return fact.value


def _value(fact: Fact) -> str:
    if not isinstance(fact, Name | Count):
        raise TypeError(f"{fact!r} is no name and no count")
    return str(fact.value)


def _from(change: KeyChange) -> str:
    return "" if change.stock is None else f" ({change.stock})"


def _nose(change: KeyChange, units: Units) -> str:
    to, now = _mm(change.to), _mm(change.now[0])
    return (
        f"Make the nose {shown(2 * to, 'mm', units)}{_from(change)}, now "
        f"{shown(2 * now, 'mm', units)}; the inside radius is then {shown(to, 'mm', units)}"
    )


def _grown(whose: str) -> Callable[[KeyChange, Units], str]:
    def told(change: KeyChange, units: Units) -> str:
        sizes = " and ".join(change.names)
        was = ", ".join(_length(one, units) for one in change.now)
        return f"Make {whose} {sizes} {_length(change.to, units)}{_from(change)}, now {was}"

    return told


def _size(text: str) -> Callable[[KeyChange, Units], str]:
    """Say a size; the text names ``{to}`` and may name ``{now}``."""

    def told(change: KeyChange, units: Units) -> str:
        now = "".join(_length(one, units) for one in change.now)
        return text.format(to=_length(change.to, units), now=now)

    return told


def _steel(what: str) -> Callable[[KeyChange, Units], str]:
    return lambda change, _: f"Make {what} of {_value(change.to)}"


def _plainly(text: str) -> Callable[[KeyChange, Units], str]:
    return lambda _, __: text


def _leg(change: KeyChange, units: Units) -> str:
    return (
        f"Make the weld of the {change.holds} {_length(change.to, units)} leg size, now "
        f"{_length(change.now[0], units)}"
    )


def _run(change: KeyChange, _: Units) -> str:
    times = _mm(change.to) / _mm(change.now[0])
    return f"Make the weld of the {change.holds} {times:g} times as long"


def _bolts(change: KeyChange, _: Units) -> str:
    return (
        f"Fasten the {change.holds} with {_value(change.to)} bolts {change.thread}, now "
        f"{_value(change.now[0])}"
    )


def _grade(change: KeyChange, _: Units) -> str:
    return (
        f"Fasten the {change.holds} with grade {_value(change.to)} bolts, now "
        f"{_value(change.now[0])}"
    )


_MEMBERS = "tooling.members"
# Key that is changed, of several the first.
_ORDERS: Mapping[str, Callable[[KeyChange, Units], str]] = {
    "tooling.nose.radius": _nose,
    f"{_MEMBERS}.carriers.thickness": _grown("the carriers'"),
    f"{_MEMBERS}.carriers.width": _grown("the carriers'"),
    f"{_MEMBERS}.carriers.pin": _grown("the carriers'"),
    f"{_MEMBERS}.push_plate.thickness": _grown("the push plate's"),
    f"{_MEMBERS}.body.cheek": _grown("the die body's"),
    f"{_MEMBERS}.body.floor": _grown("the die body's"),
    f"{_MEMBERS}.guides.diameter": _grown("the guide rods'"),
    f"{_MEMBERS}.coupling.pin": _grown("the coupling's"),
    f"{_MEMBERS}.nose.between": _size("Move the carriers to {to} centre to centre, now {now}"),
    f"{_MEMBERS}.nose.material": _steel("the nose"),
    f"{_MEMBERS}.shoulders.between": _size("Move the supports of the shoulders to {to} apart"),
    f"{_MEMBERS}.shoulders.backed": _plainly("Back the shoulders along their whole length"),
    f"{_MEMBERS}.shoulders.seat_material": _steel("the seats"),
    f"{_MEMBERS}.shoulders.kind": _plainly("Put the shoulder shafts into round seats, as blocks"),
    f"{_MEMBERS}.guides.bush": _size("Make the bushes {to} long, now {now}"),
    f"{_MEMBERS}.rod.guided": _plainly("Let the guide rods guide the end of the ram"),
    f"{_MEMBERS}.rod.free_length": _size("Work with the ram at most {to} out"),
    f"{_MEMBERS}.weld.size": _leg,
    f"{_MEMBERS}.weld.length": _run,
    f"{_MEMBERS}.bolt.count": _bolts,
    f"{_MEMBERS}.bolt.grade": _grade,
}
