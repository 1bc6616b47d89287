"""The devices and codes as the page lists them."""

from __future__ import annotations

import time
from datetime import date

from attrs import frozen

from strapwright.pages.sharing.device_passes import Pass, Passes
from strapwright.quantities.day_numbers import day_number, show_day


@frozen(kw_only=True)
class ListedDevice:
    """A line of the list: the pass, until when it holds, and when it was last used."""

    kept: Pass
    until: str
    seen: str


def listed_devices(passes: Passes) -> tuple[ListedDevice, ...]:
    """Return all that holds, devices before codes."""
    now = time.time()
    return tuple(
        ListedDevice(kept=one, until=day_of(one.until), seen=_ago(now - one.seen, one.seen))
        for one in passes.all()
    )


def day_of(seconds: float) -> str:
    """Return the day of a moment, by the clock of this machine."""
    day = date.fromtimestamp(seconds).isoformat()  # noqa: DTZ012  the shop's own day
    return show_day(day_number(day, "day"))


def _ago(gone: float, seen: float) -> str:
    if not seen:
        return "not used yet"
    minutes = int(gone // 60)
    if minutes < -2:
        return "not since the clock was set back"
    if minutes < 2:
        return "here now"
    if minutes < 120:
        return f"{minutes} min ago"
    hours = minutes // 60
    return f"{hours} h ago" if hours < 48 else f"{hours // 24} days ago"
