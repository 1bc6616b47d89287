"""Read what a job says of the part and of its bar lot."""

from __future__ import annotations

from typing import cast

from strapwright.catalog import find_material
from strapwright.errors import InputError, in_file, key_of
from strapwright.quantities.day_numbers import day_number
from strapwright.shop.bar import Bar, Lot
from strapwright.shop.keys import keys_of
from strapwright.shop.part import Measured, Part
from strapwright.shop_files.limits.reading_limits import (
    read_angle_tolerance,
    read_limits,
    read_tolerance,
)
from strapwright.shop_files.reading_bar import read_bar
from strapwright.shop_files.reading_close import read_close
from strapwright.shop_files.reading_holes import read_holes, read_welds
from strapwright.shop_files.reading_shape import read_shape
from strapwright.shop_files.reading_values import read_plain, read_value
from strapwright.shop_files.toml_table import Table, shown
from strapwright.shop_files.ways.reading_finish import read_finishes
from strapwright.shop_files.ways.reading_other_tooling import read_other_toolings
from strapwright.shop_files.ways.reading_overall import read_overall
from strapwright.shop_files.ways.reading_twist import refuse_with_twist


def read_part(table: Table, lot: Table | None) -> Part:
    """Read the tables ``[part]`` and ``[lot]``.

    Parameters
    ----------
    table
        ``[part]``.
    lot
        ``[lot]``, or ``None`` where the job says nothing of it.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    plain = read_plain(table, Part)
    if plain["due"] is not None:
        try:
            day_number(plain["due"], table.where(table.at("due")))
        except InputError as error:
            raise table.placed(error, "due") from None
    bar = read_bar(table)
    material = _read_material(table)
    _refuse_hot(table)
    of_lot = Lot() if lot is None else _read_lot(lot, bar)
    measured = _read_measured(table)
    thickness = of_lot.thickness or bar.thickness
    legs, bends, rolls, twists = read_shape(table, bar, thickness)
    legs, overall = read_overall(
        table, legs, bends, rolled=bool(rolls), thickness=thickness, measured=measured
    )
    close = read_close(table, len(legs))
    others = read_other_toolings(table, bends)
    _refuse_closed_trim(table)
    refuse_with_twist(table, twists)
    return Part(
        **plain,
        bar=bar,
        material=material,
        lot=of_lot,
        measured=measured,
        overall=overall,
        legs=legs,
        bends=bends,
        holes=read_holes(table, legs, bar),
        order=_read_order(table, len(bends)),
        natural=table.data.get("order") == "natural",
        rolls=rolls,
        twists=twists,
        close=close,
        finishes=read_finishes(
            table,
            bends,
            others,
            rolled=bool(rolls),
            closed=close is not None,
            stacked=plain["stacked"] > 1,
            twisted=bool(twists),
        ),
        welds=read_welds(table, legs),
        others=others,
        every_angle=read_angle_tolerance(table),
        tolerance=read_tolerance(table, legs),
        limits=read_limits(table, len(legs)),
    )


def _refuse_hot(table: Table) -> None:
    if table.flag("hot"):
        raise table.refuse(
            "hot",
            "hot bending is not covered: strength and springback here are those of cold bar",
            "leave it out and bend cold, or go by the smith's own practice",
            value=True,
        )


def _refuse_closed_trim(table: Table) -> None:
    if "trim" in table.data and "close" in table.data:
        raise table.refuse(
            "trim",
            "a leg left longer is sawn off after bending, and the ends of a closed shape have no "
            "room for it",
            "leave trim or close out",
        )


def _read_material(table: Table) -> str:
    """Name as typed, trimmed; the catalog must know it, for a plan looks it up there."""
    remedy = in_file('name it, for example material = "A36 hot rolled"')
    table.need("material", remedy)
    name = table.line_text("material", remedy) or ""
    try:
        find_material(name, table.where(table.at("material")))
    except InputError as error:
        raise table.placed(error, "material") from None
    return name


def _read_measured(table: Table) -> Measured:
    if table.data.get("measured") == "center":
        return "centre"
    key = keys_of(Part)["measured"]
    return cast("Measured", table.choice("measured", key.options, key.default))


def _read_order(table: Table, bends: int) -> tuple[int, ...] | None:
    value = table.data.get("order", "best")
    if value in ("best", "natural"):
        return None
    natural = list(range(1, bends + 1))
    # True would pass for 1.
    if (
        not isinstance(value, list)
        or any(type(one) is not int for one in value)
        or sorted(value) != natural
    ):
        raise table.refuse(
            "order",
            f"the order must name each of the bends 1 to {bends} once",
            in_file(f'write for example order = {natural[::-1]}, or order = "best"'),
            value=", ".join(map(shown, value[:20])) if isinstance(value, list) else value,
        )
    return tuple(value)


def _read_lot(table: Table, bar: Bar) -> Lot:
    lot = read_value(table, Lot)
    if (
        lot.yield_strength is not None
        and lot.tensile_strength is not None
        and lot.tensile_strength <= lot.yield_strength
    ):
        raise table.refuse(
            "tensile",
            "the tensile strength is not above the yield strength",
            "look at the certificate again; tensile is the larger of the two",
            value=table.data["tensile"],
        )
    # Mill tolerances are a few per cent; more is a slip, or another bar (common practice).
    if lot.thickness is not None and not 0.75 <= lot.thickness / bar.thickness <= 1.25:
        raise table.refuse(
            "thickness",
            "the measured thickness is more than a quarter off the thickness of the bar",
            f"measure again, or correct {key_of('part.bar')}",
            value=table.data["thickness"],
        )
    return lot
