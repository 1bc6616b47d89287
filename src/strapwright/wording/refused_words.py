"""The headline of a refused part: one sentence above everything else said of it."""

from __future__ import annotations

from attrs import frozen

from strapwright.motion.refused_bends import (
    clash_of,
    has_no_stop,
    reason_at,
    reasons_of,
    refusals_of,
)
from strapwright.planning.plan_values import Plan, Step
from strapwright.wording.reader import Reader
from strapwright.wording.refusal_words import refusal_clause
from strapwright.wording.telling import tell

WORD = "Refused"
NO_STOP = "No travel, block or gauge reading is given."
_ORDERS = {
    "no-order": "no order of its bends makes this part on this tooling",
    "order-cannot-be-made": "the order cannot be made",
}


@frozen(kw_only=True)
class Headline:
    """What a banner says.

    Attributes
    ----------
    text
        Why the part is refused, the first reason alone.
    more
        How many refusals are below it.
    """

    text: str
    more: int

    @property
    def sentence(self) -> str:
        """Both as one run of text."""
        if not self.more:
            return self.text
        others = "another reason" if self.more == 1 else f"{self.more} more reasons"
        return f"{self.text} There {'is' if self.more == 1 else 'are'} {others}."


def headline(plan: Plan, reader: Reader) -> Headline | None:
    """Say in one sentence why a part is refused; ``None`` where it is not.

    Parameters
    ----------
    plan
        As planned.
    reader
        Who reads it.
    """
    found = refusals_of(plan)
    if not found:
        return None
    first = found[0]
    said = _ORDERS.get(first.code)
    if said is None:
        told = tell(first, reader)
        text = f"{told.where}: {told.text}"
    else:
        clashes = [clash for step in plan.steps if (clash := clash_of(plan, step)) is not None]
        why = [refusal_clause(one, reader.figures) for one in (*clashes, *reasons_of(first))[:1]]
        text = f"{'; '.join((said, *why))}."
    return Headline(text=text[:1].upper() + text[1:], more=len(found) - 1)


def clash_words(plan: Plan, step: Step, reader: Reader) -> str:
    """Say why a bend cannot be made, e.g. ``bend 2 last: the left leg hits the ram at 40°``.

    Returns
    -------
    str
        A clause; empty where another bend is in the way.
    """
    why = reason_at(plan, step) if has_no_stop(plan, step) else None
    return "" if why is None else refusal_clause(why, reader.figures)


def no_stop_words(plan: Plan, step: Step, reader: Reader) -> str:
    """Say why a bend cannot be made, and that it has nothing to stop at.

    On a terminal it follows a word on the same line, elsewhere it begins a line.
    """
    why = clash_words(plan, step, reader)
    if not why:
        return NO_STOP
    if reader.medium != "command":
        why = f"{why[:1].upper()}{why[1:]}"
    return f"{why}. {NO_STOP}"
