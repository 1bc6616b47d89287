"""What a person types at the press is read once, by the units it was typed in."""

from __future__ import annotations

import math
from datetime import UTC, datetime
from pathlib import Path

import pytest
from test_shop_log import JOB, PSI

from strapwright.cli.main import main
from strapwright.errors import InputError
from strapwright.findings import Count, Finding
from strapwright.quantities import read_angle
from strapwright.service.costing.money_papers import read_quantities
from strapwright.service.shop_log.log_commands import asked_of_line, correct_line
from strapwright.service.shop_log.logged_push import JobText, log_push
from strapwright.service.shop_log.typed_readings import read_typed
from strapwright.shop_files.reading_job import read_job
from strapwright.store import LogEntry, open_store
from strapwright.wording.reader import at_command
from strapwright.wording.telling import tell_all

AT = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
TYPED = {"travel": "0.43", "angle": "44", "gauge": "640", "legs": "5, 4, 3", "note": "warm"}
METRIC = (
    JOB.replace('units = "inch"', 'units = "metric"')
    .replace('"flat 1/4 x 2"', '"flat 6.35 x 50.8"')
    .replace('["5", "up 90", "4", "down 45", "3"]', '["127", "up 90", "102", "down 45", "76"]')
    .replace('"3-1/2"', '"89"')
    .replace('"8"', '"200"')
    .replace('shaft = "1"', 'shaft = "25.4"')
    .replace('"3/8"', '"9.5"')
    .replace('"2-1/2"', '"63.5"')
)


def log_command(words: list[str]) -> int:
    return main(["log", *words])


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    """Return a job file with one line of its log in the store beside it."""
    path = tmp_path / "cleat strap.toml"
    path.write_text(JOB, encoding="utf-8")
    with open_store(tmp_path / "store") as store:
        item = store.create("job", "cleat strap", JOB, AT)
        log_push(store, JobText(item=item.id, version=1, text=JOB), TYPED, bend=2, at=AT)
    return path


def correct(path: Path, **typed: str) -> LogEntry:
    return correct_line(path, path.parent / "store", 1, typed, counted=None, why="misread")[0]


def test_a_correction_after_the_units_changed_reads_the_new_texts_alone(kept: Path) -> None:
    kept.write_text(METRIC, encoding="utf-8")
    now = correct(kept, angle="44.5")
    assert now.typed == {**TYPED, "angle": "44.5"}
    assert now.figures["free"] == pytest.approx(math.radians(44.5))
    assert now.figures["travel"] == pytest.approx(0.43 * 25.4)
    assert now.figures["gauge"] == pytest.approx(640 * PSI)
    assert now.figures["leg 3"] == pytest.approx(3 * 25.4)
    assert correct(kept, travel="11").figures["travel"] == pytest.approx(11.0)


def test_an_emptied_text_takes_its_figures_out_and_the_travel_stays(kept: Path) -> None:
    now = correct(kept, gauge="", legs=" ", note="")
    assert set(now.typed) == {"travel", "angle"}
    assert set(now.figures) == {"travel", "free", "blank"}
    with pytest.raises(InputError, match="a line needs its travel"):
        correct(kept, travel="")


def test_a_corrected_figure_is_asked_about_and_an_answer_holds_for_what_stays(kept: Path) -> None:
    store = kept.parent / "store"
    assert asked_of_line(kept, store, 1, {"note": "cold"}) == ()
    first = asked_of_line(kept, store, 1, {"angle": "8"})
    assert first
    # An answer holds for the angle, not for another one.
    correct(kept, angle="8")
    assert asked_of_line(kept, store, 1, {"radius": "0.5"}) == ()
    assert asked_of_line(kept, store, 1, {"angle": "7"})
    assert asked_of_line(kept, store, 1, {"legs": "50, 4, 3"})
    # It is not held to itself: right again, it is not asked about.
    assert asked_of_line(kept, store, 1, {"angle": "44"}) == ()
    states = [
        log_command(["correct", str(kept), "--line", "1", "--store", str(store), *more])
        for more in (["--angle", "7"], ["--angle", "7", "--sure"])
    ]
    assert states == [3, 0]
    assert correct(kept, note="cold").typed["angle"] == "7"


def test_a_line_that_counts_keeps_a_reading_and_one_left_out_may_lose_all(kept: Path) -> None:
    store = kept.parent / "store"
    none = dict.fromkeys(("angle", "gauge", "legs"), "")
    with pytest.raises(InputError, match="nothing was read"):
        correct(kept, **none)
    correct_line(kept, store, 1, none, counted=False, why="bar slipped")
    with pytest.raises(InputError, match="nothing was read"):
        correct_line(kept, store, 1, {}, counted=True, why="")
    again = correct_line(kept, store, 1, {"angle": "44"}, counted=True, why="")[0]
    assert again.counted
    assert set(again.figures) == {"travel", "blank", "free"}


@pytest.mark.parametrize(
    ("text", "legs"),
    [
        ("127,5, 102, 76,2", {1: 127.5, 2: 102.0, 3: 76.2}),
        ("127,5; 102; 76", {1: 127.5, 2: 102.0, 3: 76.0}),
        ("127.5, , 76", {1: 127.5, 3: 76.0}),
        ("127;102;", {1: 127.0, 2: 102.0}),
    ],
)
def test_a_decimal_comma_in_a_metric_leg_parts_nothing(text: str, legs: dict[int, float]) -> None:
    found = read_typed({"legs": text}, read_job(METRIC))
    assert found == pytest.approx({f"leg {place}": mm for place, mm in legs.items()})


@pytest.mark.parametrize(
    ("job", "typed", "says"),
    [
        (METRIC, {"legs": "127,5,102,76"}, "a comma here may be a decimal comma or part two legs"),
        (METRIC, {"legs": "127,5, 102"}, "2 legs are entered, and the part has 3"),
        (METRIC, {"legs": "127,500, 102, 76"}, "there is a comma"),
        (METRIC, {"angle": "89,500"}, "there is a comma"),
        (METRIC, {"minutes": "1,500"}, "this is not a number of minutes"),
        (JOB, {"legs": "5.02"}, "1 leg is entered, and the part has 3"),
        (JOB, {"legs": "5,02; 4; 3"}, "there is a comma"),
        (JOB, {"angle": "89,5"}, "there is a comma"),
        (JOB, {"minutes": "0,8"}, "this is not a number of minutes"),
    ],
)
def test_a_comma_that_may_mean_two_things_is_refused(
    job: str, typed: dict[str, str], says: str
) -> None:
    with pytest.raises(InputError, match=says):
        read_typed(typed, read_job(job))


def test_angles_and_minutes_take_a_decimal_comma_in_a_metric_job() -> None:
    found = read_typed({"angle": "89,5", "loaded": "92,25°", "minutes": "0,8"}, read_job(METRIC))
    assert found["free"] == pytest.approx(math.radians(89.5))
    assert found["loaded"] == pytest.approx(math.radians(92.25))
    assert found["minutes"] == pytest.approx(0.8)
    assert read_angle("90", "angle", "inch") == 90


def test_a_leg_far_from_the_one_wanted_is_asked_about(tmp_path: Path) -> None:
    with open_store(tmp_path) as store:
        item = store.create("job", "cleat strap", JOB, AT)
        opened = JobText(item=item.id, version=1, text=JOB)

        def asked(legs: str) -> tuple[Finding, ...]:
            typed = {"angle": "45", "legs": legs}
            return log_push(store, opened, typed, bend=2, at=AT).asked

        # Ten thicknesses are 2.5 in.
        assert asked("5, 6.4, 3") == ()
        (leg,) = asked("5, 6.6, 3")
        assert (leg.code, leg.one(Count, "leg").value) == ("reading-leg-off", 2)
        (told,) = tell_all([leg], at_command(read_job(JOB)))
        assert told.text == "Leg 2 measures 6.600 in, and 4.000 in is wanted."


def test_quantities_with_a_comma_for_thousands_are_refused() -> None:
    assert read_quantities("1, 500") == [1, 500]
    assert read_quantities("1,5,10,50;1500") == [1, 5, 10, 50, 1500]
    for text in ("1,500", "5, 1,500", "1,500,000"):
        with pytest.raises(InputError, match="a comma here may stand for thousands"):
            read_quantities(text)
