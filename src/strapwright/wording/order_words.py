"""Words for what the search found of a job's order, with what would help."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Choice, Count, Finding, Seconds, Yes
from strapwright.ordering.refusal_values import Refusal
from strapwright.planning.surroundings.assumptions import Assumed, Assumption
from strapwright.wording.reader import Reader
from strapwright.wording.refusal_words import assumed_sizes, helps_against, refusal_clause
from strapwright.wording.steps.handling_words import minutes
from strapwright.wording.words import Teller, Words

SHAPES_NOT_SEARCHED = {
    "rolled": "a bar that is rolled out of one plane",
    "twisted": "a bar that is twisted between its bends",
}


def _no_order(finding: Finding, reader: Reader) -> Words:
    refusals = finding.several(Refusal, "refusals")
    unproven = "" if finding.one(Yes, "proven").value else " (not all tried, the time ran out)"
    if finding.one(Yes, "closes_on_itself").value:
        return Words(
            f"The finished part runs into itself as drawn{unproven}.",
            "Check the legs and the direction of each bend.",
        )
    reasons = " ".join(_sentence(refusal_clause(one, reader.figures)) for one in refusals)
    if not reasons:
        return Words(
            "The search ran out of time before it found an order that makes this part on this "
            "tooling. There may be one.",
            f"Plan again with more time, or enter {reader.key('part.order')}.",
        )
    text = f"No order makes this part on this tooling{unproven}."
    if reader.medium != "page":  # a page folds the reasons away, bend by bend
        text = f"{text} {reasons}"
    helps = helps_against(refusals)
    if "tried" in finding.facts:
        return Words(f"{text} {assumed_sizes(refusals)}".rstrip())
    tried = " ".join(
        f"{word} {one}." for word, one in zip(("Try", *["Or try"] * 9), helps, strict=False)
    )
    start = f"{tried} Or make" if helps else "Make"
    return Words(
        f"{text} {assumed_sizes(refusals)}".rstrip(),
        f"{start} the last bend part-way and finish it by hand, away from the tooling.",
    )


def _sentence(clause: str) -> str:
    return f"{clause[:1].upper()}{clause[1:]}."


def _cannot_be_made(finding: Finding, reader: Reader) -> Words:
    order = "order you entered" if finding.one(Yes, "stated").value else "natural order"
    # Of the first bend that can be made neither way round, where one was found.
    refusals = finding.several(Refusal, "refusals")
    why = "one of its bends cannot be made"
    if refusals:
        why = refusal_clause(refusals[0], reader.figures)
    remedy = "Make the leg longer, open the shoulders, or use a nose with a slimmer web."
    if "tried" in finding.facts:
        remedy = ""
    best = _bends(finding, "best")
    if best:
        remedy = f"Make the bends in the order {best}."
    return Words(f"The {order} cannot be made: {why}. {assumed_sizes(refusals)}".rstrip(), remedy)


def _better(finding: Finding, _: Reader) -> Words:
    cost, stated = (
        minutes(finding.one(Seconds, name).value / 60.0) for name in ("cost", "stated_cost")
    )
    return Words(
        f"The order {_bends(finding, 'order')} needs less handling: {cost} min per part instead of "
        f"{stated}.",
        'Enter order = "best", or leave it out.',
    )


def _bends(finding: Finding, name: str) -> str:
    return ", ".join(str(one.value) for one in finding.several(Count, name))


def _not_proven(_: Finding, reader: Reader) -> Words:
    return Words(
        "The search ran out of time. This is the best order found so far; there may be a better "
        "one.",
        f"Plan again with more time, or enter {reader.key('part.order')}.",
    )


def _not_searched(finding: Finding, _: Reader) -> Words:
    why = finding.one(Choice, "why").value
    start = {
        "short leg": "A leg is too short for the even arcs of the search",
        "not yet": "The order is being searched",
        "no time": "The search ran out of time",
        "jams": "No order is searched while a bend jams",
    }.get(why) or f"The search does not cover {SHAPES_NOT_SEARCHED[why]}"
    return Words(
        f"{start}, so clearances and coming off the tooling are not checked.",
        "Try every bend with a plain strip first.",
    )


def _too_close(_: Finding, __: Reader) -> Words:
    return Words(
        "The part may or may not come off the nose after this bend; the fit is too close to tell.",
        "Try it with a plain strip first, or use a nose that slides out endways.",
    )


def _no_time(_: Finding, __: Reader) -> Words:
    return Words(
        "Coming off the nose after this bend is not checked: the time ran out.",
        "Plan again while the machine has less to do, or try it with a plain strip first.",
    )


def _laid_in(finding: Finding, _: Reader) -> Words:
    close = finding.one(Choice, "why").value == "too close"
    why = "the fit is too close to tell" if close else "not checked, the time ran out"
    return Words(
        f"The bar may or may not go in for this bend: {why}.",
        "With the pump off, try a bar that is bent this far before you go on.",
    )


def _draw(_: Finding, __: Reader) -> Words:
    return Words(
        "After this bend the part is trapped on the nose; the nose has to be slid out endways.",
        "Release all pressure first.",
    )


def _surroundings(finding: Finding, reader: Reader) -> Words:
    assumed = finding.several(Assumption, "assumed")
    said = " ".join(f"{_assumed(one, reader)}." for one in assumed)
    text = f"Assumed, because you did not enter it. {said}"
    if reader.medium == "paper":  # at the press there is nothing to enter it into
        return Words(text, "Check that it is so.")
    if reader.medium == "page":  # the link behind it leads to the fields
        return Words(text, "Enter what is different.")
    keys = [reader.key(_STATED[one.what]) for one in assumed if one.what in _STATED]
    if not keys:
        return Words(text, "Check that it is so.")
    *first, last = dict.fromkeys(keys)
    stated = f"{', '.join(first)} and {last}" if first else last
    return Words(text, f"Enter {stated}.")


# What is assumed -> the key for it, where there is one.
_STATED: dict[Assumed, str] = {
    "web length": "tooling.nose.span",
    "clear span": "tooling.nose.span",
    "no plate": "tooling.nose.reach",
    "plate width": "tooling.plate",
    "plate length": "tooling.plate",
    "ram width": "press.rod",
    "shoulder height": "tooling.shoulders.height",
    "outer edge": "tooling.shoulders.outer_edge",
    "shoulder length": "tooling.shoulders.length",
    "bed width": "press.bed_width",
    "column width": "press.columns.width",
    "column length": "press.columns.length",
    "daylight": "press.daylight",
}


def _assumed(one: Assumption, reader: Reader) -> str:
    size = reader.figures.size(one.size)
    return {
        "web length": f"Nose and web: {size} long",
        "clear span": f"Clear nose between its supports: {size}",
        "no plate": "Push plate: none in the way, because the nose reach is missing",
        "plate width": f"Push plate: {size} wide",
        "plate length": "Push plate: as long as the nose",
        "ram width": f"Ram behind the push plate: {size} across",
        "shoulder height": f"Shoulders: only {size} above a bed",
        "outer edge": f"Shoulder block: {size} past its round",
        "shoulder length": "Shoulders: as long as the nose",
        "bed width": "Bed: past the ends of the bar",
        "column width": f"Column: {size} wide across the bar",
        "column length": f"Column: {size} long along the nose",
        "daylight": f"Nose to bar with the ram back: {size}",
    }[one.what]


ORDER_WORDS: Mapping[str, Teller] = {
    "no-order": _no_order,
    "order-cannot-be-made": _cannot_be_made,
    "better-order": _better,
    "order-not-proven": _not_proven,
    "order-not-searched": _not_searched,
    "coming-off-too-close": _too_close,
    "coming-off-no-time": _no_time,
    "laying-in-not-proven": _laid_in,
    "draw-the-nose": _draw,
    "surroundings-assumed": _surroundings,
}
