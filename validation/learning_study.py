"""Does the shop log make the next part right?  Drawn shops, read with noise, and foretold.

``validation/learning_study.py [--count N] [--json FILE]``, or ``python3 start.py validate --table
learning``.

*Drawn shops.*  A bar, a press and a tooling are drawn within their stated spreads.  What they do is
worked out by the chain of rigid links, which shares nothing with the solver, plus an error of the
size that the solver states of itself, which runs along the turn as that of a drawn finite-element
case does, by constants that were tuned without the case.  Pushes to drawn travels are read with
noise; then pushes to other travels and to the setting of the plan are foretold, by what was learned
and by two rules that a careful person would use.  All is held against the true angle, not against
one that is read.  The same shops read once more at both edges of the bar, and by a protractor
without error, show how much of what is left is the protractor's.

*Finite elements.*  The same with the reference cases as the truth, where what the shop believes of
its bar and tooling is drawn about what they are.  The cases report springback at the end alone: on
the way it is the solver's, times what it is off at the end.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
from attrs import asdict, evolve, frozen
from scipy.interpolate import PchipInterpolator

import band_coverage as bands
import stroke_cases
from case_files import Floats, Reader, read_case
from error_along_turn import left_out_errors
from strapwright.bending import BendSetup, state_at_travel, state_for_free_angle
from strapwright.bending.bend_band import NINETY
from strapwright.bending.model_error import model_error
from strapwright.bending.solver_model import FITTED, THIN, Effects
from strapwright.errors import InputError
from strapwright.learning import foretelling
from strapwright.learning.foretelling import Figure
from strapwright.learning.learn import Learned, learn
from strapwright.learning.log_readings import Places, Push, Reading
from strapwright.learning.log_spreads import LogSpreads

SEED = 20_250_301
READINGS = (0, 1, 2, 3, 5)
# As the noise of a small shop is stated: gauge 3 %, protractor 0.3 deg, one standard deviation.
LOG = LogSpreads(gauge=0.03, protractor=math.radians(0.3))
FULL = 5.0  # MPa at the setting: the middle of a small gauge
EXACT = evolve(LOG, protractor=math.radians(0.001))  # a protractor without error
# Shares of the setting at which parts are read and others foretold; the last are the next parts.
READ_AT = (0.55, 1.05)
NEXT = (1.0, 0.7)
CASES = ("A", "B", "C", "D", "O2", "O3", "O5", "O8", "thin_bt4", "bt8", "rodfine", "sq9")
RULES = ("learned", "by the difference", "by the ratio")

Curve = Callable[[Floats], Floats]


@frozen(kw_only=True)
class Shop:
    """One bar, press and tooling as they truly are, read from first contact as found.

    Attributes
    ----------
    free
        Angle after release [rad] against travel [mm].
    gauge
        What the gauge shows, with no noise of the eye [MPa].
    """

    free: Curve
    gauge: Curve


@frozen(kw_only=True)
class Foretold:
    """One figure of one push of one shop, foretold after some readings.

    Attributes
    ----------
    readings
        How many.
    truth
        Free angle [deg] or gauge, relative to that of the setting [-].
    middle
        The same of a piece that is as strong as its lot, by which the rules are told apart.
    by
        By each of ``RULES``, in the same measure.
    low, high
        Band of what was learned.
    """

    bend: str
    where: str
    figure: str
    readings: int
    truth: float
    middle: float
    by: tuple[float, ...]
    low: float
    high: float


def noisy(value: float, spread: float, rng: np.random.Generator) -> float:
    """Return a value as read."""
    return value + spread * float(rng.standard_normal())


def foretell(
    push: Push, learned: Learned, travels: Sequence[float], effects: Effects
) -> list[tuple[Figure, Figure]]:
    """Free angle and gauge of pushes, by what was learned."""
    found = []
    for travel in travels:
        about = state_at_travel(push.setup, travel, effects=effects).loaded_angle
        one = foretelling.foretell(push, learned.spread(push, about), travel, effects)
        if one is None or one.gauge is None:
            raise InputError("travel", "the tooling jams before", "draw another")
        found.append((one.free, one.gauge))
    return found


@frozen(kw_only=True)
class Task:
    """Pushes that are foretold: what of, what truly happens, how far.

    Attributes
    ----------
    where
        ``same tooling`` or ``next job``: another tooling, with the same lot and press.
    """

    where: str
    push: Push
    shop: Shop
    travels: tuple[float, ...]


def _of_a_piece(gauge: Floats, rng: np.random.Generator) -> Floats:
    """What gauges show of pieces of one lot, each by itself as strong as pieces of a lot differ."""
    of_each: Floats = gauge * (1.0 + LOG.piece * rng.standard_normal(len(gauge)))
    return of_each


def read_parts(
    push: Push,
    shop: Shop,
    setting: float,
    count: int,
    rng: np.random.Generator,
    log: LogSpreads = LOG,
    looks: int = 1,
) -> list[Reading]:
    """Read parts with noise, the first at the setting and the rest about it.

    Parameters
    ----------
    looks
        How often each angle is measured.
    """
    readings = []
    for part in range(count):
        travel = setting * (1.0 if part == 0 else float(rng.uniform(*READ_AT)))
        at = np.array([noisy(travel, LOG.stop, rng)])
        true = float(shop.free(at)[0])
        readings.append(
            Reading(
                entry=str(part),
                push=evolve(push, places=evolve(push.places, part=f"part {part}")),
                travel=travel,
                free=float(np.mean([noisy(true, log.protractor, rng) for _ in range(looks)])),
                looks=looks,
                gauge=_of_a_piece(shop.gauge(at), rng)[0] * noisy(1.0, LOG.gauge, rng),
            )
        )
    return readings


def judged(
    name: str,
    readings: Sequence[Reading],
    tasks: Sequence[Task],
    rng: np.random.Generator,
    effects: Effects,
    counts: Sequence[int] = READINGS,
    log: LogSpreads = LOG,
) -> list[Foretold]:
    """Foretell each task after more and more of the readings."""
    nothing = learn([], log, effects)
    by_reading = foretell(readings[0].push, nothing, [one.travel for one in readings], effects)
    rows: list[Foretold] = []
    for task in tasks:
        at = np.array([noisy(travel, LOG.stop, rng) for travel in task.travels])
        middles = (np.degrees(task.shop.free(at)), task.shop.gauge(at) / FULL)
        truths = (middles[0], _of_a_piece(middles[1], rng))
        before = foretell(task.push, nothing, task.travels, effects)
        for count in counts:
            learned = learn(readings[:count], log, effects)
            now = foretell(task.push, learned, task.travels, effects)
            for figure, place, measure in (
                ("free angle", 0, math.degrees(1.0)),
                ("gauge", 1, 1 / FULL),
            ):
                was = np.array([one[place].value for one in before]) * measure
                seen = np.array([one.free if place == 0 else one.gauge for one in readings[:count]])
                own = np.array([one[place].value for one in by_reading[:count]]) * measure
                more = float(np.mean(seen * measure - own)) if count else 0.0
                times = float(np.mean(seen * measure / own)) if count else 1.0
                rows += [
                    Foretold(
                        bend=name,
                        where=task.where,
                        figure=figure,
                        readings=count,
                        truth=float(truths[place][i]),
                        middle=float(middles[place][i]),
                        by=(now[i][place].value * measure, was[i] + more, was[i] * times),
                        low=now[i][place].band.low * measure,
                        high=now[i][place].band.high * measure,
                    )
                    for i in range(len(task.travels))
                ]
    return rows


def places() -> Places:
    """One lot on one press with one tooling."""
    return Places(lot="lot", press="press", tooling="tooling", mounting="first", part="next")


@frozen(kw_only=True)
class DrawnPress:
    """Gauge against the true force [-], and its zero [MPa]."""

    scale: float
    zero: float


def drawn_press(rng: np.random.Generator) -> DrawnPress:
    """Draw a press."""
    return DrawnPress(
        scale=noisy(1.0, bands.SPREADS.reading, rng), zero=noisy(0.0, LOG.gauge_zero, rng)
    )


def along(turns: Floats, errors: Floats, at: Floats) -> Floats:
    """Errors of a case [-] at other turns [deg]; past its ends they run back as they came."""
    order = np.argsort(turns)
    first, last = float(turns.min()), float(turns.max())
    back = np.mod(at - first, 2.0 * (last - first))
    folded: Floats = first + np.minimum(back, 2.0 * (last - first) - back)
    return np.interp(folded, turns[order], errors[order])


def chain_shop(
    setup: BendSetup,
    bar: BendSetup,
    setting: float,
    per_force: float,
    press: DrawnPress,
    rng: np.random.Generator,
) -> Shop:
    """One bar by the chain of rigid links, with an error of the solver's own size."""
    error = model_error(setup, state_at_travel(setup, setting, effects=THIN).loaded_angle)
    touch = bands.SPREADS.touch * float(rng.standard_normal())
    case = rng.choice(np.array(left_out_errors(), dtype=object))
    signs = rng.choice((-1.0, 1.0), 3)
    rows = bands.pushed(bar, setting * np.linspace(0.4, 1.22, 15), 1.22 * setting)
    loaded = np.array([r.loaded for r in rows])
    force_off, angle_off = (
        sign * size / NINETY * along(turns, errors, np.degrees(loaded))
        for sign, size, turns, errors in zip(
            signs, (error.force, error.angle), case.turns, case.errors, strict=False
        )
    )
    back_off = signs[2] * error.springback / NINETY * case.springback
    at = np.array([r.travel + bar.give * r.force for r in rows]) - touch
    force = (1.0 + force_off) * np.array([r.force for r in rows])
    free = np.array([r.free for r in rows]) + angle_off - back_off
    return Shop(
        free=PchipInterpolator(at, free),
        gauge=PchipInterpolator(at, force * per_force * press.scale + press.zero),
    )


def drawn(
    name: str,
    count: int,
    rng: np.random.Generator,
    counts: Sequence[int] = READINGS,
    *,
    read_better: bool = True,
) -> list[Foretold]:
    """Draw shops for one bend and judge what is foretold of each, read better too or not."""
    setup, last = bands.cases.CASES[name]
    setup = evolve(setup, give=bands.GIVE, unloading_ratio=0.9)
    setting = bands.SHARE * last
    state = state_at_travel(setup, setting, effects=THIN)
    per_force = FULL / state.force
    spreads = evolve(bands.SPREADS, protractor=LOG.protractor)
    push = Push(setup=setup, spreads=spreads, places=places(), per_force=per_force)
    # The next job: a wider opening and a smaller nose, to about the same turn.
    other = evolve(setup, opening=1.2 * setup.opening, nose_radius=0.8 * setup.nose_radius)
    onto = state_for_free_angle(other, 0.9 * state.free_angle, effects=THIN).travel
    next_push = evolve(push, setup=other, places=evolve(push.places, tooling="wider"))
    rows = []
    for _ in range(count):
        bar, press = bands.drawn_bar(setup, rng), drawn_press(rng)
        shop = chain_shop(setup, bar, setting, per_force, press, rng)
        tooling = bands.drawn_bar(other, rng)
        its = evolve(tooling, thickness=bar.thickness, flow=bar.flow, give=bar.give)
        its = evolve(its, unloading_ratio=bar.unloading_ratio)
        further = chain_shop(other, its, onto, per_force, press, rng)
        tasks = (
            Task(
                where="same tooling",
                push=push,
                shop=shop,
                travels=tuple(share * setting for share in NEXT),
            ),
            Task(where="next job", push=next_push, shop=further, travels=(0.8 * onto, onto)),
        )
        readings = read_parts(push, shop, setting, max(counts), rng)
        rows += judged(name, readings, tasks, rng, THIN, counts)
        if not read_better:
            continue
        exact = read_parts(push, shop, setting, 1, rng, EXACT)
        again = [evolve(tasks[0], where="exact protractor")]
        rows += judged(name, exact, again, rng, THIN, (0, 1), EXACT)
        # Draws of its own, so that the rest stays as it is without it.
        (own,) = rng.spawn(1)
        edges = read_parts(push, shop, setting, 2, own, looks=2)
        twice = [evolve(tasks[0], where="both edges")]
        rows += judged(name, edges, twice, own, THIN, (0, 1, 2))
    return rows


def element_shop(
    case: stroke_cases.Truth, setup: BendSetup, per_force: float, rng: np.random.Generator
) -> Shop:
    """One shop whose bends are the finite elements' own."""
    touch = bands.SPREADS.touch * float(rng.standard_normal())
    press = drawn_press(rng)
    travel = np.asarray(case.angle_travel)
    used = travel >= 0.3 * case.last_travel
    travel, angle = travel[used], np.radians(np.asarray(case.angle)[used])
    states = [state_at_travel(setup, float(h)) for h in travel]
    end = state_at_travel(setup, case.last_travel)
    off = math.radians(case.springback) / (end.loaded_angle - end.free_angle)
    back = off * np.array([s.loaded_angle - s.free_angle for s in states])
    force = np.interp(travel, case.force_travel, case.force)
    at = travel - touch
    return Shop(
        free=PchipInterpolator(at, angle - back),
        gauge=PchipInterpolator(at, force * per_force * press.scale + press.zero),
    )


def by_elements(name: str, count: int, rng: np.random.Generator) -> list[Foretold]:
    """Shops that believe something else of a case's bar and tooling than it is."""
    reader = Reader(read_case(Path(__file__).parent / "cases" / "stroke" / f"{name}.json"))
    true = stroke_cases.read_setup(reader)
    case = stroke_cases.read_truth(reader, true)
    setting = 0.85 * case.last_travel
    per_force = FULL / state_at_travel(true, setting).force
    rows: list[Foretold] = []
    while len(rows) < count * 2 * len(READINGS) * len(NEXT):
        believed = bands.drawn_bar(true, rng)
        # The elements know no softer unloading, so what a shop believes of it lies about one.
        believed = evolve(believed, give=0.0)
        push = Push(
            setup=believed,
            spreads=evolve(bands.SPREADS, protractor=LOG.protractor, give=0.0),
            places=places(),
            per_force=per_force,
        )
        try:
            shop = element_shop(case, true, per_force, rng)
            readings = read_parts(push, shop, setting, max(READINGS), rng)
            travels = tuple(share * setting for share in NEXT)
            task = Task(where="same tooling", push=push, shop=shop, travels=travels)
            rows += judged(name, readings, [task], rng, FITTED)
        except InputError:
            continue  # believed to jam before the setting: another is drawn
    return rows


@frozen(kw_only=True)
class Summary:
    """Of one figure after some readings.

    Attributes
    ----------
    rms
        By each of ``RULES``.
    nine
        What nine of ten errors of what was learned keep within.
    width
        Mean whole width of the band.
    inside
        Share of truths inside it [-].
    worse
        Share of predictions that came out worse than before any reading by more than the half band
        of then [-].
    ahead
        How far what was learned is ahead of each of the other rules on a piece as strong as its
        lot: the mean difference of squared errors, shop by shop, over its own standard error [-];
        above 2 it is no chance.
    """

    figure: str
    readings: int
    rms: tuple[float, ...]
    nine: float
    width: float
    inside: float
    worse: float
    ahead: tuple[float, ...]


def summary(rows: Sequence[Foretold], figure: str, readings: int) -> Summary:
    """Put one figure's errors after some readings together."""
    now = [row for row in rows if row.figure == figure and row.readings == readings]
    first = [row for row in rows if row.figure == figure and row.readings == 0]
    errors = np.array([np.array(row.by) - row.truth for row in now])
    of_middle = np.array([np.array(row.by) - row.middle for row in now])
    half = np.array([0.5 * (row.high - row.low) for row in first])
    before = np.array([row.by[0] - row.truth for row in first])
    # Rows stand in one order for every number of readings of one shop.
    return Summary(
        figure=figure,
        readings=readings,
        rms=tuple(float(v) for v in np.sqrt(np.mean(errors**2, axis=0))),
        nine=float(np.quantile(np.abs(errors[:, 0]), 0.9)),
        width=float(np.mean([row.high - row.low for row in now])),
        inside=float(np.mean([row.low <= row.truth <= row.high for row in now])),
        worse=float(np.mean(np.abs(errors[:, 0]) - np.abs(before) > half)),
        ahead=tuple(_ahead(of_middle[:, 0], of_middle[:, rule]) for rule in (1, 2)),
    )


def _ahead(own: Floats, other: Floats) -> float:
    """Mean of the squares that a rule is worse by over its standard error, shop by shop."""
    shops = (other**2 - own**2).reshape(-1, len(NEXT)).mean(axis=1)
    spread = float(np.std(shops, ddof=1)) / math.sqrt(len(shops))
    return float(np.mean(shops)) / spread if spread > 0.0 else 0.0


def show(title: str, rows: Sequence[Foretold]) -> list[Summary]:
    """Print and return the table of one kind of truth."""
    print(f"\n{title}")
    print(
        f"{'figure':<11}{'readings':>8}{'rms':>8}{'by diff.':>9}{'by ratio':>9}"
        f"{'9 in 10':>9}{'band':>8}{'inside':>8}{'worse':>7}{'ahead':>12}"
    )
    table = []
    for figure in ("free angle", "gauge"):
        for readings in sorted({row.readings for row in rows}):
            one = summary(rows, figure, readings)
            table.append(one)
            print(
                f"{figure:<11}{readings:>8}"
                + "".join(f"{v:>{w}.3f}" for v, w in zip(one.rms, (8, 9, 9), strict=True))
                + f"{one.nine:>9.3f}{one.width:>8.3f}{one.inside:>8.1%}{one.worse:>7.1%}"
                + "".join(f"{v:>6.1f}" for v in one.ahead)
            )
    return table


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=40, metavar="N")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the tables there too")
    options = parser.parse_args(arguments)
    # Each bend has draws of its own, so that one can be looked at again alone.
    chain = [
        row
        for place, name in enumerate(bands.BENDS)
        for row in drawn(name, options.count, np.random.default_rng([SEED, place]))
    ]
    elements = [
        row
        for place, name in enumerate(CASES)
        for row in by_elements(name, options.count // 2, np.random.default_rng([SEED, 100 + place]))
    ]
    print("free angle in deg, gauge as a share of what it shows at the setting")
    same = [row for row in chain if row.where == "same tooling"]
    exact = [row for row in chain if row.where == "exact protractor"]
    edges = [row for row in chain if row.where == "both edges"]
    other = [row for row in chain if row.where == "next job"]
    table = {
        "next part": show("Drawn shops, by the chain of rigid links: the next part", same),
        "both edges": show("The same with each angle read at both edges", edges),
        "exact protractor": show("The same read by a protractor without error", exact),
        "next job": show("The same: the next job, on another tooling", other),
        "elements": show("Beliefs drawn about the finite elements' bars: the next part", elements),
    }
    if options.json is not None:
        kept = {key: [asdict(one) for one in rows] for key, rows in table.items()}
        options.json.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
