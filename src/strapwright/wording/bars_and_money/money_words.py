"""Hours, prices and days in words, for command, page and paper alike."""

from __future__ import annotations

from collections.abc import Sequence

from strapwright.money.logged_handling import LEAST, LoggedHandling
from strapwright.money.part_hours import Work
from strapwright.money.part_price import LotPrice
from strapwright.money.payback import Payback
from strapwright.money.week_plan import Placed, WeekPlan
from strapwright.quantities.day_numbers import show_day
from strapwright.quantities.printing import fixed

_WORKS: dict[Work, str] = {
    "cut": "Sawing",
    "square": "Deburring",
    "lay out": "Marking",
    "drill": "Drilling",
    "set up": "Setting up the press",
    "bend": "Bending",
    "turn over": "Turning the part over",
    "finish": "Finishing bends at the bench",
    "twist": "Twisting",
    "saw to length": "Sawing ends to length",
    "take off": "Taking it off the tooling",
    "check": "Checking angles",
}
_NAMED = 6  # names in one sentence; more are counted
BEND_LEFT_OUT = "Bending is left out: enter the tooling first."


def work_name(work: Work) -> str:
    """Call a kind of work."""
    return _WORKS[work]


def minutes(value: float) -> str:
    """Time as a person tells it: minutes, above two hours in hours."""
    if value < 120:
        return f"{fixed(value, 1 if value < 10 else 0)} min"
    return f"{fixed(value / 60, 1)} h"


def hours(value: float) -> str:
    """Hours to a tenth."""
    return f"{fixed(value, 1)} h"


def money(value: float, currency: str, *, whole: bool = False) -> str:
    """An amount with its currency; costs that are estimates to whole units."""
    if whole:
        return f"{currency} {fixed(value, 0)}"
    return f"{currency} {fixed(value, 2)}"


def price_row(lot: LotPrice, currency: str) -> tuple[str, str, str, str, str]:
    """Quantity, price of one, of the lot, tax and total."""
    return (
        str(lot.quantity),
        money(lot.each, currency),
        money(lot.net, currency),
        money(lot.tax, currency),
        money(lot.total, currency),
    )


def lot_heading(lot: LotPrice) -> str:
    """Head what a lot costs."""
    return f"Your cost of {_parts(lot.quantity)}"


def cost_rows(lot: LotPrice, currency: str) -> tuple[tuple[str, str], ...]:
    """What a lot costs the shop, line by line."""
    rows = [
        ("Metal", lot.material),
        ("Consumables", lot.consumables),
        ("Work", lot.labour),
        ("Setting up", lot.setup),
        ("Outside services", lot.outside),
    ]
    return (
        *((name, money(value, currency)) for name, value in rows if value),
        ("Cost", money(lot.cost, currency)),
        ("Margin", money(lot.margin, currency)),
        ("Price before tax", money(lot.net, currency)),
    )


def cost_band(lot: LotPrice, currency: str) -> str:
    """Between which values the cost lies, if the times are off."""
    low, high = money(lot.low, currency, whole=True), money(lot.high, currency, whole=True)
    if lot.high > lot.net:
        return f"If the times are off, the cost is {low} to {high}: the lot may be made at a loss."
    return f"If the times are off, the cost is {low} to {high}."


def payback_line(found: Payback) -> str:
    """After how many parts the tooling has paid for itself."""
    if found.count is None:
        return "It never pays for itself: a part costs no less with the tooling."
    low = found.count if found.low is None else found.low
    paid = f"It has paid for itself after {_parts(found.count)}"
    if found.high is None:
        return f"{paid}; at best after {low}, at worst never."
    return f"{paid} ({low} to {found.high})."


def payback_rows(found: Payback, currency: str) -> tuple[tuple[str, str], ...]:
    """What is set against what."""
    tooling = f"{fixed(found.tooling_low, 0)} to {fixed(found.tooling_high, 0)}"
    with_it = f"{fixed(found.new_low, 2)} to {fixed(found.new_high, 2)}"
    rows = [
        ("Tooling", f"{money(found.tooling, currency, whole=True)} ({tooling})"),
        ("A part today", money(found.old, currency)),
        ("A part with the tooling", f"{money(found.new, currency)} ({with_it})"),
        ("Saved on a part", money(found.saved, currency)),
    ]
    if found.yearly is not None:
        word = "Gained" if found.yearly >= 0 else "Lost"
        rows.append(
            (
                f"{word} a year, {_parts(found.a_year or 0)}",
                money(abs(found.yearly), currency, whole=True),
            )
        )
    return tuple(rows)


def _parts(count: int) -> str:
    return "1 part" if count == 1 else f"{count} parts"


def week_notes(week: WeekPlan) -> tuple[str, ...]:
    """What the plan of the week leaves out."""
    said = []
    if week.undated:
        are = "is" if len(week.undated) == 1 else "are"
        said.append(f"Without a due date, so not in this plan, {are}: {listed(week.undated)}.")
    if week.without_bending:
        names = listed(week.without_bending)
        said.append(f"Bending is left out, because no tooling is entered: {names}.")
    return tuple(said)


def listed(names: Sequence[str]) -> str:
    """Name the first few, and count the rest."""
    shown = ", ".join(names[:_NAMED])
    more = len(names) - _NAMED
    return f"{shown} and {more} more" if more > 0 else shown


def week_line(week: WeekPlan) -> str:
    """What fits and what does not."""
    moved = [one.job.name for one in week.moved]
    if not moved:
        return "Every job is finished by its due date."
    named = ", ".join(moved[:-1]) + (" and " if len(moved) > 1 else "") + moved[-1]
    return f"Move {named}: the hours before the due date are not enough."


def job_line(one: Placed) -> str:
    """When a job is done, and how that stands to its due date."""
    begun, ended = show_day(one.days[0][0]), show_day(one.finished)
    worked = begun if begun == ended else f"{begun} to {ended}"
    due = show_day(one.job.due)
    if one.fits:
        return f"{worked}, due {due}"
    return f"{worked}, due {due}: {late_words(one)}"


def late_words(one: Placed) -> str:
    """By how many days a job is late."""
    late = one.finished - one.job.due
    return f"{late} {'day' if late == 1 else 'days'} late"


def logged_line(found: LoggedHandling) -> str:
    """What the log shows of laying a part in, beside the rate."""
    rate = f"the rates say {_short(found.stated)}"
    if found.middle is None:
        bends = "1 timed bend" if found.count == 1 else f"{found.count or 'no'} timed bends"
        return f"Laying a part in: {rate}. The log has {bends}; {LEAST} are needed to tell."
    shown = f"the log shows {_short(found.middle)} (middle of {found.count} bends)"
    used = "The log is used." if found.used else "The rates are used."
    return f"Laying a part in: {shown}, {rate}. {used}"


def _short(value: float) -> str:
    return f"{fixed(value, 2)} min"
