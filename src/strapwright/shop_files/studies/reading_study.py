"""Read the file of a study, and make its jobs."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping
from fractions import Fraction

import numpy as np
from scipy.stats import qmc

from strapwright.errors import InputError, in_file
from strapwright.shop_files.opening import open_shop_file
from strapwright.shop_files.studies.stated_numbers import between, pair
from strapwright.shop_files.studies.study_values import Study, StudyCase, Value, Varied
from strapwright.shop_files.toml_table import Table
from strapwright.shop_files.updating import update_job

MOST_CASES = 100_000  # a plan takes about a second: a day on one processor; more is a slip
_MOST_KEYS = 8  # nobody reads a table of more (common practice, no source)
_MOST_VALUES = 1_000  # of one key (common practice, no source)
_LARGEST_SEED = 2**31 - 1  # what every generator of random numbers takes
_WAYS = ("values", "from", "between")
_EXAMPLE = in_file('write for example values = ["2", "2-1/2"] under [[vary]]')


def read_study(text: str, file: str) -> Study:
    """Read a study.

    Parameters
    ----------
    text
        The file.
    file
        Its name, for messages.

    Returns
    -------
    Study
        Its keys are not held to the job here: :func:`cases_of` does that.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    head = open_shop_file(text, file, ("job", "name", "draws", "seed", "vary"))
    job = head.line_text("job", in_file('write for example job = "bracket.toml"'))
    if job is None:
        raise head.refuse(
            "job", "this is missing", in_file('write job = "bracket.toml" at the head')
        )
    name = head.line_text("name", "write one line, or leave it out")
    tables = head.children("vary")
    if not tables:
        raise head.refuse(
            "vary", "nothing varies", in_file("begin a key that varies with a line [[vary]]")
        )
    if len(tables) > _MOST_KEYS:
        raise head.refuse("vary", f"there are {len(tables)} of them", f"vary {_MOST_KEYS} at most")
    varied = tuple(_varied(one) for one in tables)
    for number, one in enumerate(varied):
        if one.key in [before.key for before in varied[:number]]:
            raise tables[number].refuse(
                "key", "this key is there twice", "put all its values into one [[vary]]",
                value=one.key,
            )  # fmt: skip
    draws = head.whole("draws", 1, MOST_CASES)
    if (draws is not None) != any(one.drawn for one in varied):
        problem = "nothing is drawn" if draws is not None else "it is not said how often to draw"
        remedy = (
            in_file('write between = ["0.245", "0.255"] for a key, or leave draws out')
            if draws is not None
            else in_file("write for example draws = 200 at the head")
        )
        raise head.refuse("draws", problem, remedy)
    seed = head.whole("seed", 0, _LARGEST_SEED)
    study = Study(job=job, name=name or job.removesuffix(".toml"), varied=varied,
                  draws=draws or 1, seed=seed or 0)  # fmt: skip
    if study.count > MOST_CASES:
        raise head.refuse(
            "vary", f"that makes {study.count} jobs", f"leave values out: {MOST_CASES} at most"
        )
    return study


def _varied(table: Table) -> Varied:
    table.refuse_unknown(("key", "values", "from", "to", "steps", "between"))
    key = table.line_text("key", in_file('write for example key = "press.relief"'))
    if key is None:
        raise table.refuse("key", "this is missing", in_file('write key = "press.relief"'))
    given = [way for way in _WAYS if way in table.data]
    if len(given) != 1:
        problem = "no values are given" if not given else f"{' and '.join(given)} are both given"
        raise table.refuse(given[-1] if given else "", problem, _EXAMPLE)
    if given == ["values"]:
        return Varied(key=key, values=_values(table))
    if given == ["between"]:
        return Varied(key=key, drawn=_ends(table, table.data["between"]))
    if "to" not in table.data:
        raise table.refuse("to", "this is missing", in_file("write where the figure ends"))
    steps = table.whole("steps", 2, _MOST_VALUES)
    if steps is None:
        raise table.refuse("steps", "this is missing", in_file("write for example steps = 5"))
    ends = _ends(table, [table.data["from"], table.data["to"]], "from")
    low, high = pair(ends, table.where(table.at("from")))
    shares = (Fraction(one, steps - 1) for one in range(steps))
    return Varied(key=key, values=tuple(between(low, high, share) for share in shares))


def _values(table: Table) -> tuple[Value, ...]:
    found = table.data["values"]
    if not isinstance(found, list) or not found:
        raise table.refuse("values", "this is not a list of values", _EXAMPLE, value=found)
    if len(found) > _MOST_VALUES:
        raise table.refuse("values", f"there are {len(found)}", f"give {_MOST_VALUES} at most")
    for one in found:
        if not isinstance(one, Value):
            raise table.refuse("values", "a list or table stands among them", _EXAMPLE)
        if isinstance(one, float) and not math.isfinite(one):
            raise table.refuse(
                "values", "this is no figure", "write a figure with its unit", value=one
            )
    if len({str(one) for one in found}) < len(found):
        raise table.refuse("values", "one value is there twice", "give each once")
    return tuple(found)


def _ends(table: Table, found: object, key: str = "between") -> tuple[Value, Value]:
    if (
        not isinstance(found, list)
        or len(found) != 2
        or not all(isinstance(one, str | int | float) for one in found)
    ):
        raise table.refuse(
            key, "these are not two figures", in_file('write for example ["0.245", "0.255"]')
        )
    ends = (found[0], found[1])
    try:
        pair(ends, table.where(table.at(key)))
    except InputError as error:
        raise table.placed(error, key) from None
    return ends


def cases_of(study: Study, job: str) -> Iterator[StudyCase]:
    """Make the jobs of a study, the same ones every time.

    The drawn keys are spread evenly over their ranges by a Latin hypercube (M. D. McKay and others,
    Technometrics 21, 1979), every set of the other keys with the same draws.

    Parameters
    ----------
    study
        As read.
    job
        Text of its job file.

    Raises
    ------
    InputError
        Where a key is not one of a job file, or lies in a shop file beside it.
    """
    places = len(str(study.count))
    listed = [one for one in study.varied if one.drawn is None]
    draws = _draws(study)
    number = 0
    for values in itertools.product(*(one.values for one in listed)):
        chosen = dict(zip((one.key for one in listed), values, strict=True))
        for drawn in draws:
            number += 1
            both: Mapping[str, Value] = {**chosen, **drawn}
            varied = {one.key: both[one.key] for one in study.varied}
            yield StudyCase(
                name=f"{number:0{places}d}", text=update_job(job, varied), varied=varied
            )


def _draws(study: Study) -> list[dict[str, Value]]:
    drawn = [one for one in study.varied if one.drawn is not None]
    if not drawn:
        return [{}]
    sampler = qmc.LatinHypercube(d=len(drawn), rng=np.random.default_rng(study.seed))
    ends = [pair(one.drawn, one.key) for one in drawn if one.drawn is not None]
    return [
        {
            one.key: between(*limits, Fraction(float(share)))
            for one, limits, share in zip(drawn, ends, row, strict=True)
        }
        for row in sampler.random(study.draws)
    ]
