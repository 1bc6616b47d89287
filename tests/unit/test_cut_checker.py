"""The checker of cut plans finds what was broken on purpose, and nothing in a sound plan."""

from __future__ import annotations

import time
from collections.abc import Callable

import pytest
from attrs import evolve

from strapwright.cutting.bar_values import BarKind, CutTask
from strapwright.cutting.cut_checker import Stick, check_bars
from strapwright.cutting.find_cut_plan import find_cut_plan
from strapwright.cutting.laid_bars import LaidBar, lay_bars
from strapwright.errors import InputError
from strapwright.shop_files.rates.reading_rates import rates_text, read_rates

Bars = list[LaidBar]
KERF, SQUARING = 3.0, 5.0
WANTED = ((900.0, 4), (700.0, 3), (250.0, 6))
STICKS = (Stick(length=3000.0, count=None), Stick(length=1500.0, count=1))


@pytest.fixture(scope="module")
def sound() -> Bars:
    task = CutTask(
        lengths=(900, 700, 250),
        quantities=(4, 3, 6),
        kinds=(BarKind(length=3000), BarKind(length=1500, count=1, new=False, offcut=True)),
        kerf=3,
        squaring=5,
    )
    plan = find_cut_plan(task, clock=time.perf_counter)
    assert plan is not None
    assert plan.proven
    return list(lay_bars(task, plan.bars, 1.0))


def faults(bars: Bars) -> set[str]:
    found = check_bars(bars, wanted=WANTED, sticks=STICKS, kerf=KERF, squaring=SQUARING)
    return {fault.kind for fault in found}


def without_last(bars: Bars) -> Bars:
    return [evolve(bars[0], pieces=bars[0].pieces[:-1]), *bars[1:]]


def one_more(bars: Bars) -> Bars:
    return [*bars, evolve(bars[-1], kind=0, length=3000.0)]


def shorter_piece(bars: Bars) -> Bars:
    first, *rest = bars[0].pieces
    return [evolve(bars[0], pieces=(evolve(first, end=first.end - 0.5), *rest)), *bars[1:]]


def no_kerf(bars: Bars) -> Bars:
    at, pieces = SQUARING, []
    for piece in bars[0].pieces:
        long = piece.end - piece.start
        pieces.append(evolve(piece, start=at, end=at + long))
        at += long
    return [evolve(bars[0], pieces=tuple(pieces)), *bars[1:]]


def past_the_end(bars: Bars) -> Bars:
    last = bars[0].pieces[-1]
    moved = evolve(last, start=bars[0].length - 10.0, end=bars[0].length - 10.0 + 250.0)
    return [evolve(bars[0], pieces=(*bars[0].pieces[:-1], moved)), *bars[1:]]


def second_of_one(bars: Bars) -> Bars:
    small = next(bar for bar in bars if bar.kind == 1)
    return [*bars, small]


def no_such_bar(bars: Bars) -> Bars:
    return [evolve(bars[0], kind=7), *bars[1:]]


def other_length(bars: Bars) -> Bars:
    return [evolve(bars[0], length=bars[0].length + 200.0), *bars[1:]]


def not_squared(bars: Bars) -> Bars:
    pieces = tuple(
        evolve(one, start=one.start - SQUARING, end=one.end - SQUARING) for one in bars[0].pieces
    )
    return [evolve(bars[0], pieces=pieces), *bars[1:]]


def wrong_offcut(bars: Bars) -> Bars:
    return [evolve(bars[0], offcut=bars[0].offcut + 1.0), *bars[1:]]


def wrong_sawdust(bars: Bars) -> Bars:
    return [evolve(bars[0], sawdust=bars[0].sawdust - KERF), *bars[1:]]


def empty_bar(bars: Bars) -> Bars:
    return [*bars, evolve(bars[0], pieces=())]


@pytest.mark.parametrize(
    ("breaks", "kind"),
    [
        (without_last, "too few"),
        (one_more, "too many"),
        (shorter_piece, "wrong length"),
        (no_kerf, "no room for the cut"),
        (past_the_end, "past the end"),
        (second_of_one, "too many bars"),
        (no_such_bar, "unknown bar"),
        (other_length, "wrong bar length"),
        (not_squared, "end not squared"),
        (wrong_offcut, "off-cut"),
        (wrong_sawdust, "sawdust"),
        (empty_bar, "nothing cut"),
    ],
)
def test_each_fault_is_found(sound: Bars, breaks: Callable[[Bars], Bars], kind: str) -> None:
    assert faults(sound) == set()
    assert kind in faults(breaks(sound))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[cutting]\nkerf = "-1/8"', "the kerf is negative"),
        ("[time]\ncut = 0", "the cut is 0"),
        ("[money]\nlabour = 0", "the labour is 0"),
        ("[money]\nmargin = 1", "leaves nothing for the cost"),
        ('[[price]]\nby = "lb"', "price.price"),
        ("[money]\nlabor = 4", 'did you mean "labour"'),
        (
            '[[outside]]\nname = "paint"\n[[outside]]\nname = "Paint"',
            "this name is there twice",
        ),
    ],
)
def test_rates_that_cannot_be_are_refused_in_one_sentence(text: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        read_rates(f'format = 1\nunits = "inch"\n{text}\n', "rates.toml")
    sentence = str(caught.value)
    assert said in sentence.replace("[1]", "")
    assert "\n" not in sentence
    assert sentence.startswith("rates.toml: ")


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_the_file_to_begin_with_reads_as_it_says(units: str) -> None:
    begun = rates_text("inch" if units == "inch" else "metric")
    rates = read_rates(begun)
    assert rates.money.labour == 45.0
    assert rates.prices[0].by == ("lb" if units == "inch" else "kg")
    # Every line that shows a key can be switched on.
    lines = [
        line.removeprefix("# ")
        for line in begun.splitlines()
        if " = " in line or line.removeprefix("# ").startswith("[")
    ]
    full = read_rates("\n".join(lines))
    assert full.outside[0].name == "hot-dip galvanizing"
    assert full.cutting.kerf == pytest.approx(1.397 if units == "inch" else 1.4)
