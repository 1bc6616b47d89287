"""An unknown bar named by trial bends and by the tests of the bench, and which trial tells most."""

from __future__ import annotations

import math
import sys
from pathlib import Path

import numpy as np
import pytest
from attrs import evolve

sys.path.append(str(Path(__file__).parents[2] / "validation"))

import unknown_bars  # scripts, not a package
from strapwright.catalog import materials
from strapwright.catalog.bench_tests import TESTS, bench_tests
from strapwright.errors import InputError
from strapwright.learning.grade_odds import odds_of
from strapwright.learning.learn import learn
from strapwright.learning.log_readings import Places
from strapwright.learning.log_spreads import LogSpreads
from strapwright.learning.trial_bend import trials
from strapwright.planning.from_the_log.bend_now import bend_now
from strapwright.planning.from_the_log.learned_job import LearnedJob, readings_of
from strapwright.planning.from_the_log.pushed_bend import pushed_bend
from strapwright.planning.from_the_log.unknown_grade import grades_that_fit
from strapwright.service.shop_log import unknown_bar
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.shop_log.unknown_words import hard_words, unknown_words


def even() -> dict[str, float]:
    return dict.fromkeys(bench_tests(), 0.0)


def test_every_known_metal_has_its_tests_and_every_result_is_one_of_those_asked_for() -> None:
    # States that magnet, spark and scratch cannot tell apart are not asked about one by one.
    known = {one.name for one in materials() if not one.unknown}
    assert set(bench_tests()) < known
    families = {one.name: one.family for one in materials()}
    assert {families[name] for name in bench_tests()} == set(families.values())
    for row in bench_tests().values():
        assert all(row.shows[test] in results for test, results in TESTS.items())


def test_red_and_not_magnetic_is_copper_by_bayes_rule() -> None:
    odds = odds_of(even(), {"magnet": "no", "scratch": "red"}, bent=False)
    assert set(odds.stated) == {"copper annealed", "copper half hard"}
    # By hand, of 16 metals: 2 copper 0.97 x 0.97; 5 more not magnetic 0.97 x 0.01; 9 others
    # 0.03 x 0.01.
    copper, others, iron = 2 * 0.97**2, 5 * 0.97 * 0.01, 9 * 0.03 * 0.01
    share = dict(odds.odds)["copper annealed"]
    assert share == pytest.approx(0.97**2 / (copper + others + iron))
    assert sum(one for _, one in odds.odds) == pytest.approx(1.0)


def test_the_next_test_is_the_one_that_tells_most_and_none_where_nothing_is_left() -> None:
    assert odds_of(even(), {}, bent=False).next_test == "scratch"
    steel = {"scratch": "grey", "magnet": "yes", "spark": "long"}
    assert odds_of(even(), steel, bent=False).next_test == "bend"
    assert odds_of(even(), steel, bent=True).next_test is None
    sure = even() | {"S355": 9.0}
    assert odds_of(sure, {}, bent=True).next_test is None


def test_what_must_not_be_done_follows_from_what_it_may_be() -> None:
    found = grades_that_fit([], {"magnet": "yes", "spark": "bursts"}, 6.0)
    said = " ".join(unknown_words(found))
    assert "Do not weld it as mild steel" in said
    assert "1045 hot rolled" in found.no_weld
    assert found.brittle == ("reinforcing bar",)
    assert "It may snap" in said
    assert "Try a file first" in said
    # The reinforcing bar's three diameters go before the mild steels' one and a half.
    assert found.sharpest >= 3.0
    assert "hardened" in hard_words()


def test_bends_tell_soft_from_strong() -> None:
    rng = np.random.default_rng(4)
    soft = grades_that_fit(unknown_bars.pushes("copper annealed", rng), {}, 6.0)
    assert "copper annealed" in soft.odds.stated
    assert not {"S355", "4140 annealed", "304 annealed"} & set(soft.odds.stated)
    strong = grades_that_fit(unknown_bars.pushes("1018 cold drawn", rng), {}, 6.0)
    assert "1018 cold drawn" in strong.odds.stated
    assert not {"S235", "copper annealed", "5052-H32"} & set(strong.odds.stated)
    assert strong.bends == 3


@pytest.mark.long
def test_bars_of_every_grade_are_among_those_stated() -> None:
    rows = unknown_bars.study(16, np.random.default_rng(6), ("both",))
    assert sum(held for held, _ in rows["both"]) >= 0.9 * len(rows["both"])
    assert np.median([size for _, size in rows["both"]]) <= 5


def test_a_trial_leaves_what_learning_from_it_leaves() -> None:
    job = read_job(unknown_bars.JOB.format("unknown mild steel"))
    known = LearnedJob(
        learned=learn([]),
        places=Places(lot="l", press="p", tooling="t", mounting="1", part="next"),
    )
    now = bend_now(job, known, 1)
    push = pushed_bend(job, 1).push(known.places, job.press)
    found = trials(push, now.travel)
    best = found[0]
    assert best.gauge
    assert best.after < 0.4 * best.before
    by = {(round(one.travel / now.travel, 1), one.gauge): one.after for one in found}
    assert by[1.0, False] > by[1.0, True]
    assert by[0.4, True] > by[1.0, True]
    # The same by learning from such a reading: the band of the angle that is left.
    (line, *_) = unknown_bars.pushes("A36 hot rolled", np.random.default_rng(2))
    reading = readings_of([line])[0]
    middle = known.foretold(job, 1, now.travel)
    assert middle is not None
    assert middle.gauge is not None
    exact = LearnedJob(
        learned=learn(
            [
                type(reading)(
                    entry="1",
                    push=evolve(push, places=evolve(push.places, part="x")),
                    travel=now.travel,
                    free=middle.free.value,
                    gauge=middle.gauge.value,
                )
            ]
        ),
        places=known.places,
    )
    after = exact.foretold(job, 1, now.travel)
    assert after is not None
    half = 0.5 * (after.free.band.high - after.free.band.low)
    assert math.degrees(half) == pytest.approx(math.degrees(1.645 * by[1.0, True]), rel=0.15)


def test_a_reading_past_the_jam_leaves_the_trials_as_they_were() -> None:
    (line, *_) = unknown_bars.pushes("A36 hot rolled", np.random.default_rng(2))
    reading = readings_of([line])[0]
    far = evolve(reading, entry="far", travel=90.0)
    assert trials(reading.push, 16.0, [far]) == trials(reading.push, 16.0)
    # Nor does a bend that the solver does not reach make any trial up.
    assert trials(reading.push, 90.0) == ()


def test_a_coarse_gauge_and_pieces_that_differ_make_a_trial_tell_less() -> None:
    job = read_job(unknown_bars.JOB.format("unknown mild steel"))
    push = pushed_bend(job, 1).push(
        Places(lot="l", press="p", tooling="t", mounting="1", part="n"), job.press
    )

    def left(**more: object) -> float:
        """What the shortest trial leaves open: there the pressure tells most beside the angle."""
        found = trials(push, 16.0, **more)  # type: ignore[arg-type]
        return min((one.travel, one.after) for one in found if one.gauge)[1]

    assert left(gauge_step=10.0) > 1.005 * left()
    assert left(log=LogSpreads(piece=1.0)) > 1.005 * left()


def test_a_trial_of_a_bend_that_jams_in_every_way_is_refused_in_a_sentence(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    job = read_job(unknown_bars.JOB.format("A36 hot rolled"))
    known = LearnedJob(
        learned=learn([]),
        places=Places(lot="l", press="p", tooling="t", mounting="1", part="next"),
    )
    monkeypatch.setattr(unknown_bar, "trials", lambda *_, **__: ())
    with pytest.raises(InputError, match="no trial tells anything"):
        unknown_bar.trial_of(job, known, [], 1)
