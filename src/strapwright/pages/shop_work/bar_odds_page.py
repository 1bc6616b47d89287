"""What the pages of an unknown bar and of a trial bend say."""

from __future__ import annotations

import math
from collections.abc import Mapping

from attrs import frozen

from strapwright.bending.bend_band import NINETY
from strapwright.catalog.bench_tests import TESTS
from strapwright.pages.fields.form_fields import Field
from strapwright.pages.page_statements import on_page
from strapwright.pages.sharing.own_view import AS_EACH_JOB, OwnView, seen_job
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.service.shop_log.learned_jobs import gather, learned_from, things_in
from strapwright.service.shop_log.unknown_bar import bar_of_log, trial_of
from strapwright.shop.job import Job
from strapwright.wording.shop_log.trial_words import read_words, trial_words
from strapwright.wording.shop_log.unknown_words import (
    FILE_FIRST,
    bench_label,
    bench_result,
    hard_words,
    must_not_words,
    next_test_words,
    rests_words,
)

SKATES = "file"
FIRST_OF_ALL = FILE_FIRST  # said before anything is known of the bar
_LEAST = 0.005  # odds under this are not listed (a choice of ours)


@frozen(kw_only=True)
class OddsView:
    """An unknown bar on the page.

    Attributes
    ----------
    hard
        What a file that skates on it means; empty where it bites or was not tried.
    rests
        What the odds rest on.
    next_test
        What to test next, or that nothing is left to test.
    must_not
        What must not be done with it until it is known.
    stated, others
        Grades with how likely each is: the fewest that hold the true one 95 times in 100, and the
        rest but for what is next to nothing.
    """

    hard: str
    rests: str
    next_test: str
    must_not: tuple[str, ...]
    stated: tuple[tuple[str, str], ...]
    others: tuple[tuple[str, str], ...]


@frozen(kw_only=True)
class TrialView:
    """A trial bend on the page.

    Attributes
    ----------
    said
        The one that tells most.
    rows
        Travel, what to read, and how near the first good part then comes.
    part
        Number to log it by: none of the parts of the job.
    """

    said: str
    rows: tuple[tuple[str, str, str], ...]
    part: int


def bench_fields() -> tuple[Field, ...]:
    """Return the fields of the tests of the bench, the file first."""
    fields = [_choice(SKATES, ("bites", "skates"))]
    fields += [_choice(name, results) for name, results in TESTS.items()]
    return tuple(fields)


def odds_view(shop: Workshop, opened: OpenJob, job: Job, shown: Mapping[str, str]) -> OddsView:
    """Say what the bar of a job may be.

    Parameters
    ----------
    shop, opened, job
        The job and the log.
    shown
        Name of a test -> what it showed; what is none of its results counts as not tested.

    Raises
    ------
    InputError
        If no grade bends as the log says.
    """
    seen = {name: shown[name] for name, results in TESTS.items() if shown.get(name) in results}
    file = shown.get(SKATES, "")
    if file == "skates":  # whatever the log says: it is not to be bent at all
        return OddsView(
            hard=hard_words(), rests="", next_test="", must_not=(), stated=(), others=()
        )
    found = bar_of_log(shop.store, opened.text, job, seen)
    shares = [
        (name, f"{100.0 * share:.0f} %")
        for name, share in found.odds.odds
        if share >= _LEAST or name in found.odds.stated
    ]
    return OddsView(
        hard="",
        rests=rests_words(found.bends, len(seen)),
        next_test=next_test_words(found),
        must_not=(*(() if file == "bites" else (FILE_FIRST,)), *must_not_words(found)),
        stated=tuple((name, share) for name, share in shares if name in found.odds.stated),
        others=tuple((name, share) for name, share in shares if name not in found.odds.stated),
    )


def trial_view(
    shop: Workshop, opened: OpenJob, job: Job, bend: int, view: OwnView = AS_EACH_JOB
) -> TrialView:
    """Say which trial tells most of a bend.

    Parameters
    ----------
    shop, opened, job, bend
        The bend of the job.
    view
        How the device is shown figures.

    Raises
    ------
    InputError
        If there is no such bend, or the tooling jams before it.
    """
    show = on_page(seen_job(job, view)).figures
    own = shop.store.log.lines(opened.item.id)
    lines = gather(shop.store, job, things_in(shop.store, opened.text, job)).lines
    found = trial_of(job, learned_from(shop.store, opened.text, job), lines, bend)
    return TrialView(
        said=trial_words(found.found[0], found.off_cut, show),
        rows=tuple(
            (
                show.setting(one.travel),
                read_words(one),
                f"within {math.degrees(NINETY * one.after):.2f}°",
            )
            for one in found.found
        ),
        part=max(job.part.quantity, *(one.part for one in own), 0) + 1,
    )


def _choice(name: str, results: tuple[str, ...]) -> Field:
    choices = (("", "not tested"), *((one, bench_result(name, one)) for one in results))
    return Field(name=name, label=bench_label(name), choices=choices)
