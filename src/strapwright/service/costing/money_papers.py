"""Quote, payback and week of job files as they are handed over."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from attrs import evolve, frozen

from strapwright.errors import InputError
from strapwright.money.logged_handling import LoggedHandling, logged_handling, use_logged
from strapwright.money.payback import TodaysWay
from strapwright.quantities.day_numbers import day_number
from strapwright.report.json_text import to_text
from strapwright.report.money_text import (
    logged_to_data,
    logged_to_lines,
    payback_to_data,
    payback_to_text,
    quote_to_data,
    quote_to_text,
    week_to_data,
    week_to_text,
)
from strapwright.service.check_tooling import load_rack
from strapwright.service.costing.job_money import (
    ShopMoney,
    day_today,
    payback_for,
    plan_for_money,
    quote_for,
    refuse_half_priced,
    week_for,
)
from strapwright.service.costing.rates_files import load_rates
from strapwright.service.crib_files import load_crib
from strapwright.service.file_access import write_files
from strapwright.service.shop_log.logged_times import times_of

if TYPE_CHECKING:
    from strapwright.scene.primitives import Scene

FALLS_SHORT = 3
_LONGEST = 80  # characters of a customer's name
# 1,500 may be fifteen hundred, or 1 and 500.
_THOUSANDS = re.compile(r"(?<![0-9])[0-9]{1,3},[0-9]{3}(?![0-9])")


@frozen(kw_only=True)
class Papers:
    """What a command prints.

    Attributes
    ----------
    text, json
        For a person and for other programs.
    code
        The command's exit code.
    """

    text: str
    json: str
    code: int = 0


@frozen(kw_only=True)
class Today:
    """Today's way as typed at a command."""

    minutes: float | None
    setup: float
    scrap: float
    bought: float | None

    def way(self) -> TodaysWay:
        """Return it as a value.

        Raises
        ------
        InputError
            If neither or both ways are stated, or a figure cannot be.
        """
        if (self.minutes is None) == (self.bought is None):
            raise InputError(
                "--minutes", "today's way is not clear",
                "give --minutes for parts made by hand, or --bought for parts that are bought",
            )  # fmt: skip
        for name, value in (("--minutes", self.minutes), ("--bought", self.bought)):
            if value is not None and not 0 < value < 1e7:
                raise InputError(name, "it is not above 0", "give what it is today")
        if not 0 <= self.setup < 1e5:
            raise InputError("--setup", "it is out of range", "give minutes from 0 on")
        return TodaysWay(
            minutes=self.minutes or 0.0, setup=self.setup, scrap=self.scrap, bought=self.bought
        )


def _shop(rates: Path | None, rack: Path | None = None, crib: Path | None = None) -> ShopMoney:
    return ShopMoney(
        rates=load_rates(rates),
        rack=None if rack is None else load_rack(rack),
        crib=None if crib is None else load_crib(crib),
    )


@frozen(kw_only=True)
class LogAsked:
    """Whether the log is looked into for its times, and whether hours are made from them.

    Attributes
    ----------
    folder
        Of the store.
    used
        Whether its time is taken instead of the rate.
    """

    folder: Path | None = None
    used: bool = False


def _with_log(shop: ShopMoney, asked: LogAsked) -> tuple[ShopMoney, LoggedHandling | None]:
    if asked.folder is None and not asked.used:
        return shop, None
    found = logged_handling(times_of(asked.folder), shop.rates)
    if not asked.used:
        return shop, found
    found, rates = use_logged(found, shop.rates)
    return evolve(shop, rates=rates), found


def read_quantities(text: str) -> list[int]:
    """Read quantities as typed, ``1, 5, 10``.

    Raises
    ------
    InputError
        If one is no whole number, or a comma may stand for thousands.
    """
    thousands = _THOUSANDS.search(text)
    if thousands is not None:
        joined = thousands[0].replace(",", "")
        raise InputError(
            "quantities", "a comma here may stand for thousands",
            f"write {joined}, or {thousands[0].replace(',', ', ')} with a space if these are "
            "several quantities", value=text,
        )  # fmt: skip
    found = []
    for one in text.replace(";", ",").split(","):
        plain = one.strip()
        if not plain.isdecimal() or len(plain) > 6:
            raise InputError(
                "quantities", "this is not a list of whole numbers", "write for example 1,5,10,50",
                value=text,
            )  # fmt: skip
        found.append(int(plain))
    return found


def quote_papers(
    job: Path,
    *,
    rates: Path | None,
    rack: Path | None,
    crib: Path | None,
    quantities: str,
    customer: str,
    valid_days: int,
    sheet: Path | None,
    log: LogAsked,
) -> Papers:
    """Quote a job file, and write the customer's sheet where it is wanted.

    Raises
    ------
    InputError
        If a file cannot be used, a price is missing or a figure cannot be.
    """
    if len(customer) > _LONGEST or not customer.isprintable():
        raise InputError("--for", "the name is not one short line", "give up to 80 characters")
    shop, logged = _with_log(_shop(rates, rack, crib), log)
    quote = quote_for(
        plan_for_money(job),
        shop,
        quantities=read_quantities(quantities),
        customer=customer,
        today=day_today(),
        valid_days=valid_days,
    )
    name, currency = quote.job.part.name, quote.rates.money.currency
    if sheet is not None:
        refuse_half_priced(quote)
        from strapwright.sheets.quote_sheet import quote_sheet  # noqa: PLC0415  typesetting

        raw = quote_sheet(
            quote.job, quote.lots, quote.rates, customer=customer, issued=quote.issued,
            valid=quote.valid,
        )  # fmt: skip
        write_files(sheet.parent, {sheet.name: raw})
    return Papers(
        text=quote_to_text(name, quote.hours, quote.lots, currency) + logged_to_lines(logged),
        json=to_text(
            {**quote_to_data(name, quote.hours, quote.lots, currency), **logged_to_data(logged)}
        ),
    )


def payback_papers(
    job: Path,
    today: Today,
    *,
    rates: Path | None,
    rack: Path | None,
    crib: Path | None,
    lot: int | None,
    a_year: int | None,
    interest: float,
    years: float,
    tooling_cost: float | None,
    folder: Path | None,
) -> Papers:
    """Set the tooling of a job file against today's way, and draw the chart where it is wanted.

    Raises
    ------
    InputError
        If a file cannot be used, a price is missing or a figure cannot be.
    """
    way = today.way()
    shop = _shop(rates, rack, crib)
    made = plan_for_money(job)
    found = payback_for(
        made, shop, way, lot=lot, a_year=a_year, interest=interest, years=years,
        tooling_cost=tooling_cost,
    )  # fmt: skip
    name, currency = made.job.part.name, shop.rates.money.currency
    if folder is not None:
        from strapwright.drawing.bars_and_money.payback_drawing import (  # noqa: PLC0415
            payback_scene,
        )

        _draw(folder, "payback", payback_scene(found, currency))
    return Papers(
        text=payback_to_text(name, found, currency),
        json=to_text(payback_to_data(name, found, currency)),
    )


def week_papers(
    jobs: Sequence[Path],
    *,
    rates: Path | None,
    today: str | None,
    folder: Path | None,
    log: LogAsked,
) -> Papers:
    """Say what fits into the days to come, and draw it where it is wanted.

    Raises
    ------
    InputError
        If a file cannot be used, no job has a due date, or one lies in the past.
    """
    first = day_today() if today is None else day_number(today, "--from")
    shop, logged = _with_log(_shop(rates), log)
    week = week_for([plan_for_money(job) for job in jobs], shop, first)
    if folder is not None:
        from strapwright.drawing.bars_and_money.week_drawing import week_scene  # noqa: PLC0415

        _draw(folder, "week", week_scene(week))
    return Papers(
        text=week_to_text(week) + logged_to_lines(logged),
        json=to_text({**week_to_data(week), **logged_to_data(logged)}),
        code=FALLS_SHORT if week.moved else 0,
    )


def _draw(folder: Path, name: str, scene: Scene) -> None:
    from strapwright.drawing import to_svg  # noqa: PLC0415

    write_files(
        folder,
        {
            f"{name}.dark.svg": to_svg(scene, "dark").encode(),
            f"{name}.light.svg": to_svg(scene, "light").encode(),
        },
    )
