"""What would make a refused part, as a page offers it."""

from __future__ import annotations

from attrs import frozen

from strapwright.planning.plan_values import Plan
from strapwright.planning.remedy_values import Remedy
from strapwright.wording.figures import figures_for
from strapwright.wording.remedy_words import remedy_words, rest_words


@frozen(kw_only=True)
class Offer:
    """One remedy on a page.

    Attributes
    ----------
    number
        Its place among those found, from 0.
    text, checked
        What to change, and what the plan with it says.
    """

    number: int
    text: str
    checked: str


@frozen(kw_only=True)
class Offers:
    """All of them, and what else is to be said.

    Attributes
    ----------
    offers, rest
        What makes the part; what was tried in vain or not at all, and what to mind.
    """

    offers: tuple[Offer, ...]
    rest: tuple[str, ...]


def offered(made: Plan) -> Offers | None:
    """Return what was found for a plan; ``None`` where nobody looked.

    Parameters
    ----------
    made
        The plan.
    """
    if made.remedies is None:
        return None
    show = figures_for(made.job)
    offers = []
    for number, one in enumerate(made.remedies.found):
        words = remedy_words(one, show)
        offers.append(Offer(number=number, text=words.order, checked=words.checked))
    return Offers(offers=tuple(offers), rest=rest_words(made.remedies, show))


def offered_text(made: Plan, remedy: Remedy) -> str:
    """Return what to change, in words.

    Parameters
    ----------
    made, remedy
        A plan, and what was found for it.
    """
    return remedy_words(remedy, figures_for(made.job)).order
