"""Pushing in stages in words: how far first, and how much more by what the protractor shows."""

from __future__ import annotations

from attrs import frozen

from strapwright.bending.bend_values import Band
from strapwright.planning.plan_values import StagedPush
from strapwright.planning.push_further import Push
from strapwright.wording.caution_words import READ_LOADED
from strapwright.wording.reader import Reader


@frozen(kw_only=True)
class StagedWords:
    """A push in stages.

    Attributes
    ----------
    first
        Travel of the first push.
    loaded, free
        Angle expected under load and after release.
    rows
        What the protractor shows, and how much more to push for it; without a unit where a table
        has it at its head.
    unit
        Of the rows, without a space.
    """

    first: str
    loaded: str
    free: str
    rows: tuple[tuple[str, str], ...]
    unit: str


def staged_words(staged: StagedPush, reader: Reader) -> StagedWords:
    """Put a push in stages into words.

    Parameters
    ----------
    staged
        Of a step.
    reader
        A page gives every push its unit; paper writes out where nothing is left to push.
    """
    show = reader.figures
    more = show.setting if reader.medium == "page" else show.bare_setting
    return StagedWords(
        first=show.setting(staged.first_travel),
        loaded=show.angle(staged.first_loaded),
        free=show.angle(staged.first_free),
        rows=tuple(
            (
                show.angle(reading),
                "none" if reader.medium == "paper" and extra <= 0 else more(extra),
            )
            for reading, extra in zip(staged.readings, staged.extra, strict=True)
        ),
        unit=show.size_of("mm")[0].strip(),
    )


@frozen(kw_only=True)
class FurtherWords:
    """How much more to push, in sentences.

    Attributes
    ----------
    push, stands, again
        How far, what the bend then measures under load, and what to do before the next push.
    """

    push: str
    stands: str
    again: str


def further_words(push: Push, reader: Reader) -> FurtherWords:
    """Say how much more to push.

    Parameters
    ----------
    push
        Beyond where the ram stopped before.
    reader
        Who reads it.
    """
    show = reader.figures
    between = show.between(Band(low=push.low, high=push.high), "mm")
    return FurtherWords(
        push=f"Push {show.setting(push.extra)} further than last time ({between}).",
        stands=f"It should then measure {show.angle(push.loaded)} under load; {READ_LOADED}.",
        again="Back off and measure again before you push any more.",
    )
