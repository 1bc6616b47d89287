"""Read how long handling takes in this shop."""

from __future__ import annotations

from strapwright.shop.by_hand.handling_minutes import HandlingMinutes
from strapwright.shop_files.reading_values import read_value
from strapwright.shop_files.toml_table import Table

_SLACK = 1e-9  # min, numerical


def read_handling(table: Table | None) -> HandlingMinutes:
    """Read the table ``[handling]``.

    Parameters
    ----------
    table
        ``None`` where the job says nothing of it: the usual minutes are taken then.

    Raises
    ------
    InputError
        Where a key is no time, or one move takes longer than the two that it stands for.
    """
    if table is None:
        return HandlingMinutes()
    found = read_value(table, HandlingMinutes)
    both = found.turn_over + found.swap_ends
    if found.half_turn is not None and found.half_turn > both + _SLACK:
        raise table.refuse(
            "half_turn",
            f"one move takes longer than turning over and swapping ends, {both:g} min",
            "give less, or leave it out",
            value=table.data["half_turn"],
        )
    return found
