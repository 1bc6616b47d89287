"""Read what a job or a shop file says of the press."""

from __future__ import annotations

from typing import get_args

from strapwright.errors import in_file
from strapwright.shop.press import Axis, Press
from strapwright.shop_files.quantity_fields import (
    FLOW,
    FORCE,
    LENGTH,
    PER_MINUTE,
    PRESSURE,
    SHARE,
    VOLUME,
    exact,
    quantity,
)
from strapwright.shop_files.reading_pieces import read_columns
from strapwright.shop_files.toml_table import Table

EFFICIENCY = 0.95  # packing and rod seals of a small cylinder; common practice, no source


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
    table.refuse_unknown()
    efficiency = quantity(table, "efficiency", SHARE)
    apart, column = read_columns(table)
    press = Press(
        bore=quantity(table, "bore", LENGTH),
        rod=quantity(table, "rod", LENGTH),
        relief=quantity(table, "relief", PRESSURE),
        stroke=quantity(table, "stroke", LENGTH),
        flow=_read_flow(table),
        efficiency=EFFICIENCY if efficiency is None else efficiency,
        no_load=quantity(table, "no_load", PRESSURE, zero=True) or 0.0,
        give=_read_give(table),
        gauge_step=quantity(table, "gauge_step", PRESSURE),
        axis=table.choice("axis", get_args(Axis), "down"),
        daylight=quantity(table, "daylight", LENGTH),
        columns_apart=apart,
        column_width=column,
        bed_width=quantity(table, "bed_width", LENGTH),
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


def _read_flow(table: Table) -> float | None:
    """Pump delivery, or that of a hand pump: volume of a stroke times strokes a minute [mm3/s]."""
    table.only_one("pump", "hand_pump")
    hand = table.child("hand_pump")
    if hand is None:
        return quantity(table, "pump", FLOW)
    hand.refuse_unknown()
    volume = exact(
        hand, "volume", hand.need("volume", in_file('write for example volume = "0.5 in3"')), VOLUME
    )
    strokes = exact(
        hand,
        "strokes_per_minute",
        hand.need("strokes_per_minute", in_file("write for example strokes_per_minute = 30")),
        PER_MINUTE,
    )
    return float(volume * strokes / 60)


def _read_give(table: Table) -> float:
    """Travel lost per force [mm/N], from one travel measured at one force; 0 where not stated."""
    give = table.child("give")
    if give is None:
        return 0.0
    give.refuse_unknown()
    travel = exact(
        give,
        "travel",
        give.need("travel", in_file('write for example travel = "0.02 in"')),
        LENGTH,
        zero=True,
    )
    force = exact(
        give, "at", give.need("at", in_file('write for example at = "5 tons (US)"')), FORCE
    )
    return float(travel / force)
