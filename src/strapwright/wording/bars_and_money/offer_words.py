"""Words for what a proposed tooling costs, and for a search that found none."""

from __future__ import annotations

from strapwright.wording.bars_and_money.money_words import hours as hours_words
from strapwright.wording.bars_and_money.money_words import money

# Where no rates say which money it is: a rack has prices and no currency.
_RACK = "in the money of the rack"


def offer_cost(
    cost: float, material: float, hours: float, currency: str = "", *, whole: bool = False
) -> tuple[str, str]:
    """Say what a tooling costs, and what that counts.

    Parameters
    ----------
    cost, material
        In the rack's money: the whole, and what is to be bought.
    hours
        Of making [h].
    currency
        Of the shop's rates; empty where it has none.
    whole
        Whether to whole units.
    """
    total, bought = (money(one, currency, whole=whole).strip() for one in (cost, material))
    counted = f"material to buy {bought}, plus {hours_words(hours)} of shop time"
    return f"cost {total}", counted if currency else f"{_RACK}: {counted}"


def nothing_words(*, all_tried: bool) -> str:
    """Say that no tooling was found: of everything on the rack, or of what the time allowed."""
    if all_tried:
        return "Nothing on the rack works."
    return "Nothing that was tried works, and not everything was tried."
