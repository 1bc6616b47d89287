"""Make several toolings of one press: a plate that they share is drawn once, with all its holes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations
from pathlib import Path
from typing import Any, Literal

from attrs import define, evolve, field, frozen

from strapwright.errors import InputError, in_file
from strapwright.making.drawn_members.laying_out import Pieces, wall_findings
from strapwright.making.kept.die_change import DieChange, die_change
from strapwright.making.kept.sharing import new_holes, shared_plate, with_holes
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.making.tooling_making import ToolingMaking, make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.planning.plan_values import Plan
from strapwright.quantities import Units
from strapwright.service.load_job import load_job
from strapwright.service.tooling_files import (
    BenchSettings,
    bench_settings,
    checked_again,
    making_files,
    planned,
    slug,
)
from strapwright.shop.job import Job
from strapwright.shop.kept_plates import KeptPlate
from strapwright.wording.drawings.change_words import ChangeWords, change_words
from strapwright.wording.reader import in_units
from strapwright.wording.relief_words import relief_words

PlateKey = Literal["push_plate", "bed_plate", "bed"]
# Key of a plate of the press -> its name on a drawing.
_KEPT: dict[PlateKey, str] = {"push_plate": "push plate", "bed_plate": "bed plate", "bed": "bed"}


Change = tuple[DieChange, ChangeWords]  # a change, and its card in words


@frozen(kw_only=True)
class Die:
    """One job with everything that is laid out for it, and its plan where it has one."""

    job: Job
    pieces: Pieces
    plans: tuple[Plan, ...]


@frozen(kw_only=True)
class Dies:
    """Several toolings of one press.

    Attributes
    ----------
    makings
        Of each, in the order named; then of the plates that they share.
    dies
        What each is made from.
    """

    makings: tuple[ToolingMaking, ...]
    dies: tuple[Die, ...]


@define
class _Shared:
    """A plate that stays, as the toolings so far leave it."""

    as_stated: KeptPlate
    now: KeptPlate
    drawn: PlateDrawing
    units: Units
    there: tuple[HoleSpec, ...]
    added: dict[str, tuple[HoleSpec, ...]] = field(factory=dict)


def load_dies(
    paths: Sequence[Path],
    *,
    crib: Path | None = None,
    rpm: tuple[float, float] | None = None,
    tip: str | None = None,
) -> Dies:
    """Work out how several toolings are made, and the plates that they share.

    Parameters
    ----------
    paths
        Job files with a tooling each.
    crib, rpm, tip
        As for :func:`strapwright.service.tooling_files.load_making`.

    Raises
    ------
    InputError
        If a file cannot be used, or two of them state one plate in two ways.
    """
    settings = bench_settings(crib=crib, rpm=rpm, tip=tip)
    return _dies([(str(path), load_job(path)) for path in paths], settings)


def _dies(jobs: Sequence[tuple[str, Job]], settings: BenchSettings) -> Dies:
    """Work out several toolings by where each job is from."""
    shared: dict[tuple[PlateKey, str], _Shared] = {}
    dies: list[Die] = []
    makings: list[ToolingMaking] = []
    for where, job in jobs:
        if any(one.job.part.name == job.part.name for one in dies):
            raise InputError(
                where, f"two of the jobs are called {job.part.name!r}",
                "give each part its own name, by which its holes and files are told apart",
            )  # fmt: skip
        die, alone = _laid(job, shared)
        dies.append(die)
        makings.append(_made(alone, job.part.name, job.units, settings))
    for one in shared.values():
        plate = shared_plate(one.drawn, one.there, one.added)
        if all(hole.exists for hole in plate.holes) and plate.exists:
            continue
        pieces = Pieces(plates=(plate,), shafts=(), notes=(), findings=tuple(wall_findings(plate)))
        name = one.as_stated.name or plate.name
        makings.append(_made(pieces, name, one.units, settings))
    return Dies(makings=tuple(makings), dies=tuple(dies))


def _made(pieces: Pieces, name: str, units: Units, settings: BenchSettings) -> ToolingMaking:
    return make_tooling(
        pieces, settings.cutters, name=name, units=units, machine=settings.machine,
        tip=settings.tip, usual=settings.usual,
    )  # fmt: skip


def _laid(job: Job, shared: dict[tuple[PlateKey, str], _Shared]) -> tuple[Die, Pieces]:
    """Lay a tooling out on plates as the others before it leave them.

    Returns it whole, and without the plates that have a sheet of their own.
    """
    press = job.press
    keys: dict[PlateKey, tuple[PlateKey, str]] = {}
    for key, what in _KEPT.items():
        kept: KeptPlate | None = None if press is None else getattr(press, key)
        if press is None or kept is None:
            continue
        name = keys[key] = (key, kept.name)
        known = shared.get(name)
        if known is None:
            continue
        if known.as_stated != kept:
            raise InputError(
                f"press.{key}",
                f"{kept.name or what} is stated in two ways by the jobs named",
                in_file('keep it in one press file that they name: press = "press.toml"'),
            )
        changes: dict[str, Any] = {key: known.now}
        press = evolve(press, **changes)
    on = evolve(job, press=press)
    plans = planned(job)
    pieces = checked_again(pieces_of(on), on, plans)
    own: list[PlateDrawing] = []
    for plate in pieces.plates:
        of = [one for one, what in _KEPT.items() if what == plate.name and one in keys]
        if not of:
            own.append(plate)
            continue
        kept = getattr(press, of[0])
        new = new_holes(plate, kept)
        at = shared.setdefault(
            keys[of[0]],
            _Shared(
                as_stated=kept, now=kept, drawn=plate, units=job.units,
                there=tuple(one for one in plate.holes if one not in new),
            ),
        )  # fmt: skip
        at.added[job.part.name] = new
        at.now = with_holes(at.now, plate, new, job.part.name)
        # Nothing of it is left to do on the sheets of this tooling.
        own.append(
            evolve(plate, exists=True, holes=tuple(evolve(h, exists=True) for h in plate.holes))
        )
    names = tuple(
        shared[keys[key]].as_stated.name or name
        for key, name in _KEPT.items()
        if key in keys and keys[key] in shared
    )
    alone = evolve(pieces, plates=tuple(own), shared=names)
    return Die(job=job, pieces=pieces, plans=plans), alone


def changes_of(dies: Sequence[Die]) -> tuple[Change, ...]:
    """Return the change from each of some toolings to each other, with its words.

    Parameters
    ----------
    dies
        At least two.

    Raises
    ------
    InputError
        Where one of them cannot be put together.
    """
    return tuple(_change(*pair) for pair in permutations(dies, 2))


def _change(before: Die, after: Die) -> Change:
    change = die_change((before.job, before.pieces), (after.job, after.pieces))
    known = [step.relief for plan in after.plans for step in plan.steps if step.relief is not None]
    lowest = min(known, key=lambda one: one.pressure, default=None)
    return change, change_words(change, relief_words(lowest, in_units(change.units).figures))


def load_change(before: Path, after: Path) -> Change:
    """Work out the change from one tooling to another.

    Parameters
    ----------
    before, after
        Job files with a tooling each.

    Raises
    ------
    InputError
        If a file cannot be used, or a tooling cannot be put together.
    """
    return change_between((str(before), load_job(before)), (str(after), load_job(after)))


def change_between(before: tuple[str, Job], after: tuple[str, Job]) -> Change:
    """Work out the change from the tooling of one job to that of another.

    Parameters
    ----------
    before, after
        Where each job is from, for what is refused of it, and the job.

    Raises
    ------
    InputError
        If the jobs have one name, or a tooling cannot be put together.
    """
    first, last = _dies((before, after), bench_settings(crib=None, rpm=None, tip=None)).dies
    return _change(first, last)


def card_file(change: DieChange, words: ChangeWords) -> bytes:
    """Return a change card as PDF."""
    # Typesetting takes a while to load and the terminal does not need it.
    from strapwright.sheets.change_card import change_card  # noqa: PLC0415

    return change_card(words, change.units)


def dies_files(made: Dies) -> dict[str, bytes]:
    """Make the files of several toolings: each name begins with what it is of; then the cards.

    Parameters
    ----------
    made
        As worked out.
    """
    files = {
        f"{slug(one.name)}-{name}": content
        for one in made.makings
        for name, content in making_files(one).items()
    }
    if all(one.pieces.assembly is not None for one in made.dies):
        for change, words in changes_of(made.dies):
            name = f"change-{slug(change.before.name)}-to-{slug(change.after.name)}.pdf"
            files[name] = card_file(change, words)
    return files
