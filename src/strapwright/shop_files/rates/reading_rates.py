"""Read the file of the shop's rates: saw, times, money, hours."""

from __future__ import annotations

from typing import Any, TypeVar

from strapwright.catalog import find_material
from strapwright.errors import InputError, in_file
from strapwright.quantities import Units
from strapwright.shop.keys import keys_of
from strapwright.shop.shop_rates import (
    CuttingRules,
    MoneyRates,
    OutsideService,
    Price,
    ShopRates,
    TimeRates,
    WorkHours,
)
from strapwright.shop_files.key_help import help_of, left_out, literal
from strapwright.shop_files.opening import open_shop_file
from strapwright.shop_files.reading_bar import read_bar
from strapwright.shop_files.reading_values import read_value
from strapwright.shop_files.toml_table import Table

RATE_TABLES: dict[str, type[Any]] = {
    "cutting": CuttingRules,
    "time": TimeRates,
    "money": MoneyRates,
    "hours": WorkHours,
}
RATE_LISTS: dict[str, type[Any]] = {"price": Price, "outside": OutsideService}
_ABOVE = {
    "cutting": "How bars are cut to length.",
    "time": "How long the work takes, in minutes. Time a job once and write your own figures.",
    "money": "What the work costs. A quote needs the price of an hour and of the metal.",
    "hours": "When you work.",
    "price": "What metal costs: one block for each metal or bar.",
    "outside": "Work that is given out. Leave it out if there is none.",
}
_MOST = 100  # prices, outside services; more is a slip (common practice, no source)

Made = TypeVar("Made")


def read_rates(text: str, file: str = "rates file") -> ShopRates:
    """Read the shop's rates.

    Parameters
    ----------
    text
        The file.
    file
        Its name, for messages.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    head = open_shop_file(text, file, (*RATE_TABLES, *RATE_LISTS))
    prices = tuple(_price(one) for one in _tables(head, "price"))
    services = tuple(read_value(one, OutsideService) for one in _tables(head, "outside"))
    names = [one.name.casefold() for one in services]
    for number, name in enumerate(names, start=1):
        if name in names[: number - 1]:
            raise head.refuse(
                f"outside[{number}].name",
                "this name is there twice",
                "give each outside service a name of its own",
                value=services[number - 1].name,
            )
    money = _single(head, "money", MoneyRates)
    if money.margin >= 1.0:
        raise head.refuse(
            "money.margin", "a margin of the whole price leaves nothing for the cost",
            in_file("write a share below 1, for example margin = 0.2"), value=money.margin,
        )  # fmt: skip
    if money.scrap >= 1.0:
        raise head.refuse(
            "money.scrap", "where every part is lost none can be sold",
            in_file("write a share below 1, for example scrap = 0.03"), value=money.scrap,
        )  # fmt: skip
    return ShopRates(
        cutting=_single(head, "cutting", CuttingRules),
        time=_single(head, "time", TimeRates),
        money=money,
        hours=_single(head, "hours", WorkHours),
        prices=prices,
        outside=services,
    )


def _single(head: Table, name: str, made: type[Made]) -> Made:
    table = head.child(name)
    return made() if table is None else read_value(table, made)


def _tables(head: Table, name: str) -> tuple[Table, ...]:
    found = head.children(name)
    if len(found) > _MOST:
        raise head.refuse(name, f"there are {len(found)} of them", f"give at most {_MOST}")
    return found


def _price(table: Table) -> Price:
    bar = read_bar(table) if "bar" in table.data else None
    price = read_value(table, Price, bar=bar)
    if price.material is not None:
        try:
            find_material(price.material, table.where(table.at("material")))
        except InputError as error:
            raise table.placed(error, "material") from None
    return price


def rates_text(units: Units) -> str:
    """Return a file of rates to begin with, every key explained.

    Parameters
    ----------
    units
        ``inch`` or ``metric``.
    """
    lines = [
        "# The rates of the shop. A line that begins with # is not read; what it shows is meant.",
        "format = 1",
        f'units = "{units}"',
    ]
    for name, made in {**RATE_TABLES, **RATE_LISTS}.items():
        several = name in RATE_LISTS
        given = name != "outside"
        mark = "" if given else "# "
        lines += ["", f"# {_ABOVE[name]}", f"{mark}[[{name}]]" if several else f"[{name}]"]
        for key in keys_of(made).values():
            told = help_of(key, units)
            meant = left_out(key, units)
            said = f"{told}; {meant} if left out" if meant else told
            line = f"{key.name} = {literal(key, units)}  # {said}"
            stated = given and (key.given or key.needed or (several and key.name == "material"))
            lines.append(line if stated else f"# {line}")
    return "\n".join(lines) + "\n"
