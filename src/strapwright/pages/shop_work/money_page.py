"""What the page of a job's price says: hours, prices, and when its tooling has paid for itself."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from attrs import frozen

from strapwright.drawing.bars_and_money.payback_drawing import (
    PAYBACK_PHONE,
    PAYBACK_WIDE,
    payback_scene,
)
from strapwright.errors import InputError
from strapwright.money.logged_handling import logged_handling
from strapwright.money.payback import TodaysWay
from strapwright.pages.edited_job import Note
from strapwright.pages.fields.form_fields import Field
from strapwright.pages.page_statements import told
from strapwright.pages.shelves import crib_of, rack_of, rates_of
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan_values import Plan
from strapwright.scene.svg import to_svg
from strapwright.service.costing.job_money import (
    Quote,
    ShopMoney,
    day_today,
    payback_for,
    quote_for,
)
from strapwright.service.costing.money_papers import read_quantities
from strapwright.service.shop_log.logged_times import times_in
from strapwright.wording.bars_and_money.money_words import (
    BEND_LEFT_OUT,
    cost_band,
    cost_rows,
    logged_line,
    lot_heading,
    minutes,
    payback_line,
    payback_rows,
    price_row,
    work_name,
)

_LARGEST = 1e7  # money, parts, minutes; more is a slip
QUOTE_FIELDS = (
    Field(name="quantities", label="Quantities", inch="1, 5, 10, 50", hint="with commas"),
    Field(name="customer", label="For", inch="Harbour office", hint="printed on the quote"),
)
TODAY_FIELDS = (
    Field(name="minutes", label="By hand, one part", kind="count", inch="25", hint="minutes"),
    Field(name="bought", label="Or bought in, one part", kind="count", inch="18.50", hint="price"),
    Field(name="setup", label="Getting ready for a lot", kind="count", inch="30", hint="minutes"),
    Field(name="scrap", label="Parts lost today", kind="share", inch="0.05", hint="0.05 is 5 %"),
    Field(name="lot", label="Parts in a lot", kind="count", inch="12"),
    Field(name="a_year", label="Parts a year", kind="count", inch="200"),
    Field(name="tooling_cost", label="Tooling bought for", kind="count", inch="450", hint="price"),
)
_ASKED = frozenset(("minutes", "lot", "a_year"))  # asked for where they are empty
MONEY_FIELDS = (*QUOTE_FIELDS, *TODAY_FIELDS)


@frozen(kw_only=True)
class PriceView:
    """Prices on the page.

    Attributes
    ----------
    works
        Work, once a lot, each part.
    together
        The same for all of it.
    note
        What is left out, may be empty.
    rows
        Quantity, each, lot, tax, total.
    costs
        Heading, lines and band of each quantity.
    """

    works: tuple[tuple[str, str, str], ...]
    together: tuple[str, str]
    note: str
    rows: tuple[tuple[str, ...], ...]
    costs: tuple[tuple[str, tuple[tuple[str, str], ...], str], ...]


@frozen(kw_only=True)
class PaybackView:
    """Payback on the page: the sentence, what is set against what, and the chart."""

    line: str
    rows: tuple[tuple[str, str], ...]
    wide: str
    narrow: str


def shop_money(shop: Workshop) -> ShopMoney:
    """Return rates, rack and crib as they are kept.

    Raises
    ------
    InputError
        If they cannot be read.
    """
    return ShopMoney(rates=rates_of(shop), rack=rack_of(shop), crib=crib_of(shop))


def logged_times_line(shop: Workshop) -> str:
    """Say what the log shows of laying a part in; empty where no bend was timed.

    Raises
    ------
    InputError
        If the rates cannot be read.
    """
    times = times_in(shop.store)
    return logged_line(logged_handling(times, rates_of(shop))) if times else ""


def quote_of(shop: Workshop, made: Plan, typed: Mapping[str, str]) -> Quote:
    """Price a job at the quantities typed.

    Raises
    ------
    InputError
        If a price is missing or a figure cannot be.
    """
    return quote_for(
        made,
        shop_money(shop),
        quantities=read_quantities(typed.get("quantities", "") or "1, 5, 10, 50"),
        customer=typed.get("customer", "").strip()[:80],
        today=day_today(),
    )


def price_view(quote: Quote) -> PriceView:
    """Tell a quote to the shop."""
    currency, hours = quote.rates.money.currency, quote.hours
    return PriceView(
        works=tuple(
            (
                work_name(one.work),
                minutes(one.lot) if one.lot else "",
                minutes(one.part) if one.part else "",
            )
            for one in hours.works
        ),
        together=(minutes(hours.lot), minutes(hours.part)),
        note=BEND_LEFT_OUT if hours.no_tooling else "",
        rows=tuple(price_row(lot, currency) for lot in quote.lots),
        costs=tuple(
            (lot_heading(lot), cost_rows(lot, currency), cost_band(lot, currency))
            for lot in quote.lots
        ),
    )


def payback_view(shop: Workshop, made: Plan, typed: Mapping[str, str]) -> PaybackView:
    """Set the tooling of a job against today's way as typed.

    Raises
    ------
    InputError
        If a figure is missing or cannot be.
    """
    given = {field.name: _number(field, typed.get(field.name, "")) for field in TODAY_FIELDS}
    if (given["minutes"] is None) == (given["bought"] is None):
        raise InputError(
            "minutes", "enter how long one part takes by hand, or what it is bought for",
            "leave the other empty",
        )  # fmt: skip
    money = shop_money(shop)
    found = payback_for(
        made,
        money,
        TodaysWay(
            minutes=given["minutes"] or 0.0,
            setup=given["setup"] or 0.0,
            scrap=given["scrap"] or 0.0,
            bought=given["bought"],
        ),
        lot=_whole("lot", given["lot"]),
        a_year=_whole("a_year", given["a_year"]),
        tooling_cost=given["tooling_cost"],
    )
    currency = money.rates.money.currency
    return PaybackView(
        line=payback_line(found),
        rows=payback_rows(found, currency),
        wide=to_svg(payback_scene(found, currency, PAYBACK_WIDE), None),
        narrow=to_svg(payback_scene(found, currency, PAYBACK_PHONE), None),
    )


def field_notes(
    typed: Mapping[str, str], errors: Iterable[InputError]
) -> tuple[dict[str, Note], list[InputError]]:
    """Put what is wrong beneath the field that it is about.

    Parameters
    ----------
    typed
        Field -> text.
    errors
        What was refused.

    Returns
    -------
    notes, others
        Of every field by its name; what no field of the page is about.
    """
    notes = {field.name: Note(other="", wrong="") for field in MONEY_FIELDS}
    others = []
    for error in errors:
        if error.where in notes and (error.where in typed or error.where in _ASKED):
            notes[error.where] = Note(other="", wrong=told(error))
        else:
            others.append(error)
    return notes, others


def _number(field: Field, text: str) -> float | None:
    plain = text.strip()
    if not plain:
        return None
    try:
        value = float(plain)
    except ValueError:
        value = -1.0
    if not 0 < value < _LARGEST:
        raise InputError(
            field.name, "this is no number above 0",
            f"write for example {field.inch}, or leave it empty", value=plain,
        )  # fmt: skip
    return value


def _whole(name: str, value: float | None) -> int | None:
    if value is None:
        return None
    if value != round(value):
        raise InputError(name, f"{value:g} is no whole number of parts", "write for example 12")
    return round(value)
