"""Read what a job or a shop file says of the press, and write it back."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from strapwright.quantities import Units
from strapwright.shop.by_hand.hand_pump import HandPump
from strapwright.shop.keys import keys_of
from strapwright.shop.press import Press
from strapwright.shop_files.exact_text import plain_decimal
from strapwright.shop_files.limits.reading_hand_pump import hand_pump_to_plain, read_hand_pump
from strapwright.shop_files.plates.reading_kept_plates import kept_plate_to_plain, read_kept_plate
from strapwright.shop_files.reading_values import (
    Plain,
    exact_value,
    read_plain,
    value_to_plain,
)
from strapwright.shop_files.toml_table import Table

_GIVE_AT = 10_000  # N; the force at which the travel lost is told


def read_press(table: Table) -> Press:
    """Read the table ``[press]``.

    Parameters
    ----------
    table
        ``[press]``.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    hand_pump = read_hand_pump(table)
    press = Press(
        **read_plain(table, Press),
        flow=_read_flow(table, hand_pump),
        hand_pump=hand_pump,
        give=_read_give(table),
        push_plate=read_kept_plate(table, "push_plate"),
        bed_plate=read_kept_plate(table, "bed_plate"),
        bed=read_kept_plate(table, "bed"),
    )
    if press.bore is not None and press.rod is not None and press.rod >= press.bore:
        raise table.refuse(
            "rod",
            "the rod is not thinner than the bore",
            f"give a diameter below the bore, {table.data['bore']}",
            value=table.data["rod"],
        )
    if press.relief is not None and press.no_load >= press.relief:
        raise table.refuse(
            "no_load",
            "the pressure at no load is not below the relief setting",
            f"give what the gauge reads while the ram runs free, below {table.data['relief']}",
            value=table.data["no_load"],
        )
    return press


def press_to_plain(press: Press, units: Units) -> Plain:
    """Return the press as a file writes it.

    Parameters
    ----------
    press
        As read.
    units
        Unit system to write in.
    """
    # Shifted as a decimal: a product of floats would not always read back the same.
    travel = f"{plain_decimal(Decimal(repr(press.give)) * _GIVE_AT)} mm"
    return value_to_plain(
        press,
        units,
        give={"travel": travel, "at": f"{_GIVE_AT} N"},
        **({} if press.hand_pump is None else hand_pump_to_plain(press.hand_pump, units)),
        push_plate=kept_plate_to_plain(press.push_plate, units),
        bed_plate=kept_plate_to_plain(press.bed_plate, units),
        bed=kept_plate_to_plain(press.bed, units),
    )


def _read_flow(table: Table, hand_pump: HandPump | None) -> float | None:
    """Pump delivery, or that of a hand pump: volume of a stroke times strokes a minute [mm3/s]."""
    if hand_pump is not None:
        return hand_pump.volume * hand_pump.strokes_per_minute / 60
    delivered = exact_value(table, keys_of(Press)["pump"])
    return None if delivered is None else float(delivered)


def _read_give(table: Table) -> float:
    """Travel lost per force [mm/N], from one travel measured at one force; 0 where not stated."""
    travel, force = _both(table, "give.travel", "give.at")
    return 0.0 if travel is None or force is None else float(travel / force)


def _both(table: Table, first: str, second: str) -> tuple[Fraction | None, Fraction | None]:
    known = keys_of(Press)
    return exact_value(table, known[first]), exact_value(table, known[second])
