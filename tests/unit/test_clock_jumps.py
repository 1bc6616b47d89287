"""A clock that is set forwards or backwards loses nothing and lets nobody in twice."""

# ruff: noqa: F811  fixtures of another module are named as it names them

from __future__ import annotations

import re
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from test_sharing import Clock, clock, store  # noqa: F401  fixtures

from strapwright.pages.sharing import device_list
from strapwright.pages.sharing.device_passes import Passes
from strapwright.pages.sittings import sittings
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan import plan
from strapwright.report.plan_json import plan_to_data
from strapwright.service.demo import JOBS, NAMES
from strapwright.service.network import own_certificate
from strapwright.service.search_clock import within
from strapwright.shop_files.reading_job import read_job
from strapwright.store import Store, backup_store, open_store, restore_store
from strapwright.store.drafts import ALWAYS, KEPT

SOURCE = Path(__file__).resolve().parents[2] / "src" / "strapwright"
AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
YEARS = timedelta(days=3653)
DAY = 86_400.0
JOB = (JOBS / f"{NAMES[0]}.toml").read_text(encoding="utf-8")
# Who may ask for the time of day: what ends a pass, and what a folder of compiled loops is old by.
OF_THE_DAY = {"pages/sharing/device_passes.py", "pages/sharing/device_list.py"}
OF_THE_DAY |= {"service/compiler_cache.py"}


def test_a_pass_gets_no_second_life_from_a_clock_that_is_set_back(
    store: Store, clock: Clock
) -> None:
    passes = Passes(store, clock)
    _, code = passes.invite("phone", "work", 2)
    clock.now += 3600
    joined = passes.join(code, "phone")
    assert joined is not None
    kept, token = joined
    begin = clock.now
    for later, holds in (
        (0.0, True),
        (-1800.0, True),  # a clock that is put right by half an hour shuts nobody out
        (1.9 * DAY, True),
        (2.1 * DAY, False),
        (YEARS.total_seconds(), False),
        (-0.5 * DAY, False),
        (-YEARS.total_seconds(), False),
    ):
        clock.now = begin + later
        assert passes.holds(kept) is holds, later
        assert (passes.held(token) is not None) is holds, later
        assert (kept.id in {one.id for one in passes.all()}) is holds, later
        again = Passes(store, clock)  # the server started anew under that clock
        assert (again.held(token) is not None) is holds, later
        assert (passes.join(code, "other") is not None) is (holds or later == -1800.0), later


def test_a_device_is_not_said_to_be_here_because_the_clock_was_set_back(
    store: Store, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(time, "time", clock)
    passes = Passes(store, clock)
    joined = passes.join(passes.invite("phone", "work", 30)[1], "phone")
    assert joined is not None

    def seen() -> str:
        return device_list.listed_devices(passes)[0].seen

    clock.now += 2 * DAY
    passes.held(joined[1])
    assert seen() == "here now"
    clock.now -= DAY
    assert seen() == "not since the clock was set back"
    passes.held(joined[1])
    assert seen() == "here now"
    clock.now += 600
    assert seen() == "10 min ago"


def test_a_jump_of_years_takes_no_half_typed_edit(store: Store) -> None:
    item = store.create("job", "hanger", JOB, AT)
    store.drafts.put(item.id, "phone", "job", 1, {"leg": "3"}, AT)
    for at in (AT + YEARS, AT - YEARS, AT + 2 * KEPT):
        store.drafts.put(item.id, "bench", "job", 1, {"leg": "4"}, at)
        assert store.drafts.get(item.id, "phone") is not None
        assert store.drafts.get(item.id, "bench") is not None
    for number in range(ALWAYS + 1):  # and yet they do not grow without end
        store.drafts.put(item.id, f"tab{number}", "job", 1, {"leg": "5"}, AT + YEARS)
    assert store.drafts.get(item.id, "phone") is None


def test_the_history_goes_by_number_whatever_the_clock_said(store: Store) -> None:
    shop = Workshop(store)
    item = store.create("job", "hanger", JOB, AT)
    for number, at in enumerate((AT + YEARS, AT - YEARS, AT - YEARS + timedelta(minutes=5)), 1):
        store.save(item.id, f"{JOB}# {number}\n", number, at)
    assert [one.number for one in store.history(item.id)] == [4, 3, 2, 1]
    assert shop.before(item.id) == 3
    assert store.text_of(item.id) == f"{JOB}# 3\n"
    found = sittings(shop, shop.open(item.id))
    assert [[one.number for one in each.versions] for each in found] == [[4, 3], [2], [1]]


def test_what_was_kept_aside_is_not_replaced_when_the_clock_comes_by_again(tmp_path: Path) -> None:
    folder, backup = tmp_path / "store", tmp_path / "whole.db"
    with open_store(folder) as store:
        store.create("job", "hanger", JOB, AT)
    backup_store(folder, backup)
    kept = [restore_store(backup, folder, AT) for _ in range(3)]
    assert len(set(kept)) == 3
    assert all(one is not None and one.is_file() for one in kept)


def test_a_plan_is_the_same_while_the_clock_jumps(monkeypatch: pytest.MonkeyPatch) -> None:
    job = read_job(JOB)
    calm = plan_to_data(plan(job, keep_going=within()))
    jumps = iter(range(10**9))
    monkeypatch.setattr(time, "time", lambda: 2e9 * (-1) ** next(jumps))
    assert plan_to_data(plan(job, keep_going=within())) == calm


def test_no_deadline_goes_by_the_time_of_day() -> None:
    found = {
        path.relative_to(SOURCE).as_posix()
        for path in SOURCE.rglob("*.py")
        if re.search(r"\btime\.time\b", path.read_text(encoding="utf-8"))
    }
    assert found == OF_THE_DAY


@pytest.mark.parametrize("zone", ["Europe/Berlin", "America/New_York", "Pacific/Kiritimati", "UTC"])
def test_a_day_is_the_shops_own_across_summer_time(
    zone: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    try:
        for day in (date(2031, 3, 30), date(2031, 10, 26), date(2031, 3, 9), date(2031, 11, 2)):
            begin = datetime(day.year, day.month, day.day, 12).astimezone().timestamp()
            said = {device_list.day_of(begin + hours * 3600) for hours in range(-10, 11)}
            assert said == {device_list.day_of(begin)}
            assert str(day.day) in device_list.day_of(begin)
    finally:
        monkeypatch.undo()
        time.tzset()


def test_a_certificate_from_the_future_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Later(datetime):
        @classmethod
        def now(cls, tz: object = None) -> datetime:
            del tz
            return datetime.now(UTC) + YEARS

    with monkeypatch.context() as patched:
        patched.setattr(own_certificate, "datetime", Later)
        first = own_certificate.own_certificate(tmp_path, "192.168.7.20")
    again = own_certificate.own_certificate(tmp_path, "192.168.7.20")
    assert first.fingerprint != again.fingerprint
    made = x509.load_pem_x509_certificate(again.certificate.read_bytes())
    assert made.not_valid_before_utc <= datetime.now(UTC)
    assert own_certificate.own_certificate(tmp_path, "192.168.7.20") == again
