"""The quote for a customer: what is made and its price at each quantity, nothing of the shop."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from strapwright.money.part_price import LotPrice
from strapwright.quantities.day_numbers import show_day
from strapwright.scene.lettering import as_fractions
from strapwright.shop.job import Job
from strapwright.shop.shop_rates import ShopRates
from strapwright.wording.bars_and_money.cut_words import CutWords, counted
from strapwright.wording.bars_and_money.money_words import price_row
from strapwright.wording.figures import reading_of


def quote_sheet(
    job: Job,
    lots: Sequence[LotPrice],
    rates: ShopRates,
    *,
    customer: str,
    issued: int,
    valid: int,
    paper: Literal["letter", "a4"] | None = None,
) -> bytes:
    """Lay out the sheet.

    Parameters
    ----------
    job
        What is made.
    lots
        Prices by quantity.
    rates
        For currency, tax and outside services.
    customer
        Whom it is for, may be empty.
    issued, valid
        Day numbers.
    paper
        ``letter`` or ``a4``; ``None`` takes letter for inches and A4 for millimetres.

    Returns
    -------
    bytes
        PDF; the same values give the same bytes.

    Raises
    ------
    StrapwrightError
        Where the sheet cannot be laid out.
    """
    from strapwright.sheets.typeset import compile_pdf  # noqa: PLC0415  takes long to load

    chosen = paper or ("letter" if job.units == "inch" else "a4")
    words = CutWords(units=job.units, reading=reading_of(job))
    part, money = job.part, rates.money
    made = [counted(len(part.bends), "bend")]
    if part.holes:
        made.append(counted(len(part.holes), "hole"))
    services = [one.name for one in rates.outside]
    facts = [
        ("Part", part.name),
        ("Made from", f"{words.bar_name(part.bar)} bar, {part.material}"),
        ("With", " and ".join(made) + (f"; {', '.join(services)}" if services else "")),
    ]
    if customer:
        facts.insert(0, ("For", customer))
    data = {
        "paper": {"letter": "us-letter", "a4": "a4"}[chosen],
        "facts": [[name, as_fractions(value)] for name, value in facts],
        "issued": show_day(issued)[4:],
        "valid": show_day(valid)[4:],
        "taxed": money.tax > 0,
        "tax": f"{100 * money.tax:g} %",
        "rows": [list(price_row(lot, money.currency)) for lot in lots],
    }
    return compile_pdf("quote.typ", data, {})
