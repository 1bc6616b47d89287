"""Quote, payback and week as text for a terminal and as plain data."""

from __future__ import annotations

from typing import Any

from attrs import asdict

from strapwright.money.logged_handling import LoggedHandling
from strapwright.money.part_hours import JobHours
from strapwright.money.part_price import LotPrice
from strapwright.money.payback import Payback
from strapwright.money.week_plan import WeekPlan
from strapwright.quantities.day_numbers import show_day
from strapwright.wording.bars_and_money.money_words import (
    BEND_LEFT_OUT,
    cost_band,
    cost_rows,
    hours,
    job_line,
    logged_line,
    lot_heading,
    minutes,
    payback_line,
    payback_rows,
    price_row,
    week_line,
    week_notes,
    work_name,
)

FORMAT = 1
ESTIMATE = "Times and costs are estimates from your own rates."


def quote_to_text(
    name: str, hours_of_job: JobHours, lots: tuple[LotPrice, ...], currency: str
) -> str:
    """Write a quote for the shop: hours, prices, and what they are made of.

    Parameters
    ----------
    name
        Of the part.
    hours_of_job, lots
        As worked out.
    currency
        As printed.
    """
    lines = [name, "", *_hours(hours_of_job), ""]
    lines.append(f"  {'qty':>5} {'each':>14} {'lot':>14} {'tax':>12} {'to pay':>14}")
    for lot in lots:
        quantity, each, net, tax, total = price_row(lot, currency)
        lines.append(f"  {quantity:>5} {each:>14} {net:>14} {tax:>12} {total:>14}")
    for lot in lots:
        lines += ["", f"  {lot_heading(lot)}:"]
        lines += [f"    {what:<18} {amount:>14}" for what, amount in cost_rows(lot, currency)]
        lines.append(f"    {cost_band(lot, currency)}")
    return "\n".join([*lines, "", ESTIMATE]) + "\n"


def _hours(found: JobHours) -> list[str]:
    lines = [f"  {'':<28} {'once a lot':>12} {'each part':>12}"]
    for one in found.works:
        once = minutes(one.lot) if one.lot else ""
        each = minutes(one.part) if one.part else ""
        lines.append(f"  {work_name(one.work):<28} {once:>12} {each:>12}")
    lines.append(f"  {'Together':<28} {minutes(found.lot):>12} {minutes(found.part):>12}")
    if found.no_tooling:
        lines.append(f"  {BEND_LEFT_OUT}")
    return lines


def hours_to_data(found: JobHours) -> dict[str, Any]:
    """Return hours as plain data, in minutes."""
    return {
        "works": [
            {"work": one.work, "lot_min": one.lot, "part_min": one.part} for one in found.works
        ],
        "lot_min": found.lot,
        "part_min": found.part,
        "spread": found.spread,
        "bending_left_out": found.no_tooling,
    }


def quote_to_data(
    name: str, hours_of_job: JobHours, lots: tuple[LotPrice, ...], currency: str
) -> dict[str, Any]:
    """Return a quote as plain data; parameters as of :func:`quote_to_text`."""
    return {
        "format": FORMAT,
        "part": name,
        "currency": currency,
        "hours": hours_to_data(hours_of_job),
        "lots": [{**asdict(lot), "cost": lot.cost} for lot in lots],
    }


def payback_to_text(name: str, found: Payback, currency: str) -> str:
    """Write a payback: when the tooling has paid for itself, and what it is set against."""
    rows = [f"  {what:<30} {amount}" for what, amount in payback_rows(found, currency)]
    head = f"Tooling of {name}, lots of {found.lot}"
    return "\n".join([head, "", payback_line(found), "", *rows, "", ESTIMATE]) + "\n"


def payback_to_data(name: str, found: Payback, currency: str) -> dict[str, Any]:
    """Return a payback as plain data, in money and parts."""
    return {"format": FORMAT, "part": name, "currency": currency, **asdict(found)}


def week_to_text(week: WeekPlan) -> str:
    """Write what to do when, and what does not fit."""
    lines = [f"From {show_day(week.today)}", "", week_line(week), ""]
    for one in week.placed:
        mark = " " if one.fits else "!"
        lines.append(f"{mark} {one.job.name}: {hours(one.job.hours)}, {job_line(one)}")
    notes = week_notes(week)
    return "\n".join([*lines, "", *notes, ESTIMATE]) + "\n"


def week_to_data(week: WeekPlan) -> dict[str, Any]:
    """Return a week as plain data."""
    return {
        "format": FORMAT,
        "today": show_day(week.today)[4:],
        "late_by_due_date_alone": week.by_date_late,
        "undated": list(week.undated),
        "jobs": [
            {
                "name": one.job.name,
                "hours": one.job.hours,
                "bending_left_out": one.job.no_tooling,
                "due": show_day(one.job.due)[4:],
                "fits": one.fits,
                "days": [{"day": show_day(day)[4:], "hours": h} for day, h in one.days],
            }
            for one in week.placed
        ],
    }


def logged_to_lines(found: LoggedHandling | None) -> str:
    """Write what the log shows of laying a part in; nothing where it was not asked."""
    return "" if found is None else f"\n{logged_line(found)}\n"


def logged_to_data(found: LoggedHandling | None) -> dict[str, Any]:
    """Return the same as plain data, in minutes."""
    if found is None:
        return {}
    return {
        "laying_in": {
            "timed_bends": found.count,
            "log_min": found.middle,
            "rate_min": found.stated,
            "from_log": found.used,
        }
    }
