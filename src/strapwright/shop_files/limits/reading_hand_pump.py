"""Read what a job says of a hand pump, and write it back."""

from __future__ import annotations

from decimal import Decimal

from strapwright.errors import in_file
from strapwright.quantities import Units
from strapwright.shop.by_hand.hand_pump import HandPump
from strapwright.shop.keys import keys_of
from strapwright.shop.press import Press
from strapwright.shop_files.exact_text import length_text, plain_decimal, pressure_text
from strapwright.shop_files.reading_values import Plain, exact_value
from strapwright.shop_files.toml_table import Table

_LEVER = ("piston", "lever", "arm")
_CM3 = 1000  # mm3


def read_hand_pump(press: Table) -> HandPump | None:
    """Read the table ``[press.hand_pump]``.

    Parameters
    ----------
    press
        ``[press]``.

    Returns
    -------
    HandPump or None
        ``None`` where the press has none.

    Raises
    ------
    InputError
        Where a pump is stated too, a figure is missing, or two of them contradict each other.
    """
    press.only_one("pump", "hand_pump")
    known = keys_of(Press)
    found = {
        name: exact_value(press, known[f"hand_pump.{name}"])
        for name in ("volume", "strokes_per_minute", "low_volume", "changes_at", *_LEVER)
    }
    volume, strokes = found["volume"], found["strokes_per_minute"]
    table = press.child("hand_pump")
    if table is None or volume is None or strokes is None:
        return None
    low, changes = found["low_volume"], found["changes_at"]
    if (low is None) != (changes is None):
        have, lack = (
            ("low_volume", "changes_at") if changes is None else ("changes_at", "low_volume")
        )
        raise table.refuse(
            have,
            f"a pump of two stages needs {lack} too",
            in_file(f"add {lack}, or leave {have} out"),
            value=table.data[have],
        )
    if low is not None and low <= volume:
        raise table.refuse(
            "low_volume",
            "the low-pressure stage moves no more oil than the high one",
            f"give the larger volume, above {table.data['volume']}, or leave it out",
            value=table.data["low_volume"],
        )
    stated = [name for name in _LEVER if found[name] is not None]
    if stated and len(stated) < len(_LEVER):
        missing = " and ".join(name for name in _LEVER if name not in stated)
        raise table.refuse(
            stated[0],
            f"the force at the handle needs {missing} too",
            in_file("write piston, lever and arm, or none of them"),
            value=table.data[stated[0]],
        )
    lever, arm = found["lever"], found["arm"]
    if lever is not None and arm is not None and arm >= lever:
        raise table.refuse(
            "arm",
            "the arm is not shorter than the lever",
            f"measure both from the pivot; give less than {table.data['lever']}",
            value=table.data["arm"],
        )
    return HandPump(**{name: None if one is None else float(one) for name, one in found.items()})  # type: ignore[arg-type]


def hand_pump_to_plain(pump: HandPump, units: Units) -> Plain:
    """Return the keys of the press that state a hand pump, as a file writes them.

    Parameters
    ----------
    pump
        As read.
    units
        Unit system to write in.
    """
    written: Plain = {
        "volume": _volume(pump.volume),
        "strokes_per_minute": pump.strokes_per_minute,
    }
    if pump.low_volume is not None and pump.changes_at is not None:
        written["low_volume"] = _volume(pump.low_volume)
        written["changes_at"] = pressure_text(pump.changes_at, units)
    for name, one in (("piston", pump.piston), ("lever", pump.lever), ("arm", pump.arm)):
        if one is not None:
            written[name] = length_text(one, units)
    return {"pump": None, "hand_pump": written}


def _volume(mm3: float) -> str:
    # Shifted as a decimal: a product of floats would not always read back the same.
    return f"{plain_decimal(Decimal(repr(mm3)) / _CM3)} cm3"
