"""Words for what the search found of a job's order, with what would help."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Choice, Count, Finding, Yes
from strapwright.ordering.refusal_values import Refusal
from strapwright.planning.surroundings.assumptions import Assumed, Assumption
from strapwright.quantities import show_both
from strapwright.wording.reader import Reader
from strapwright.wording.refusal_words import assumed_sizes, helps_against, refusal_clause
from strapwright.wording.words import Teller, Words

SHAPES_NOT_SEARCHED = {
    "rolled": "a bar that is rolled out of one plane",
}


def _no_order(finding: Finding, reader: Reader) -> Words:
    refusals = finding.several(Refusal, "refusals")
    unproven = "" if finding.one(Yes, "proven").value else " (not proven, the time ran out)"
    if finding.one(Yes, "closes_on_itself").value:
        return Words(
            f"The finished part meets itself as drawn{unproven}.",
            "Check the legs and which way each bend turns.",
        )
    reasons = "; ".join(refusal_clause(one, reader.figures) for one in refusals)
    if not reasons:
        return Words(
            "The time ran out before an order was found that makes this part on this tooling; "
            "that there is none is not proven.",
            f"Plan it again with more time, or state {reader.key('part.order')}.",
        )
    text = f"No order makes this part on this tooling: {reasons}{unproven}."
    helps = helps_against(refusals)
    if "tried" in finding.facts:
        return Words(f"{text} {assumed_sizes(refusals)}".rstrip())
    start = f"Try {'; '.join(helps)}; or make" if helps else "Make"
    return Words(
        f"{text} {assumed_sizes(refusals)}".rstrip(),
        f"{start} the last bend part of the way and finish it off the tooling.",
    )


def _cannot_be_made(finding: Finding, reader: Reader) -> Words:
    order = "stated" if finding.one(Yes, "stated").value else "natural"
    # Of the first bend that can be made neither way round, where one was found.
    refusals = finding.several(Refusal, "refusals")
    why = "one of its bends cannot be made"
    if refusals:
        why = refusal_clause(refusals[0], reader.figures)
    remedy = "Lengthen the leg, open the shoulders, or use a nose with a slimmer web."
    if "tried" in finding.facts:
        remedy = ""
    best = _bends(finding, "best")
    if best:
        remedy = f"Make the bends in the order {best}."
    return Words(
        f"The {order} order cannot be made: {why}. {assumed_sizes(refusals)}".rstrip(), remedy
    )


def _better(finding: Finding, _: Reader) -> Words:
    cost, stated = (finding.one(Count, name).value for name in ("cost", "stated_cost"))
    flip, swap, stop = (finding.one(Count, name).value for name in ("flip", "swap", "stop"))
    return Words(
        f"The order {_bends(finding, 'order')} takes less handling: {cost} against {stated} (a "
        f"flip counts {flip}, an end for end {swap}, a stop moved {stop}).",
        'Write order = "best", or leave it out.',
    )


def _bends(finding: Finding, name: str) -> str:
    return ", ".join(str(one.value) for one in finding.several(Count, name))


def _not_proven(_: Finding, reader: Reader) -> Words:
    return Words(
        "The time ran out: this is the best order found, not proven to be the best.",
        f"Plan it again with more time, or state {reader.key('part.order')}.",
    )


def _not_searched(finding: Finding, _: Reader) -> Words:
    why = finding.one(Choice, "why").value
    start = {
        "short leg": "A leg is too short for the search's even arcs",
        "not yet": "The order is being searched",
        "no time": "The time ran out",
        "jams": "No order is searched as long as a bend jams",
    }.get(why) or f"The search does not cover {SHAPES_NOT_SEARCHED[why]}"
    return Words(
        f"{start}: that nothing hits and that the part comes off the tooling is not proven.",
        "Go through each bend with a bare strip first.",
    )


def _too_close(_: Finding, __: Reader) -> Words:
    return Words(
        "Whether the part comes off the nose after this bend is too close to call; it is not "
        "proven.",
        "Try it with a bare strip first, or use a nose that can be drawn out.",
    )


def _no_time(_: Finding, __: Reader) -> Words:
    return Words(
        "Whether the part comes off the nose after this bend was not decided in the time given; it "
        "is not proven.",
        "Plan it again while the machine has less to do, or try it with a bare strip first.",
    )


def _laid_in(finding: Finding, _: Reader) -> Words:
    close = finding.one(Choice, "why").value == "too close"
    why = "is too close to call" if close else "was not decided in the time given"
    return Words(
        f"Whether the bar can be laid in for this bend {why}; it is not proven.",
        "Lay a bar in that is bent so far, with the pump off, before you go on.",
    )


def _draw(_: Finding, __: Reader) -> Words:
    return Words(
        "The part is locked on the nose after this bend and comes off only when the nose is drawn "
        "out endways.",
        "Let off the pressure fully before you draw the nose.",
    )


def _surroundings(finding: Finding, reader: Reader) -> Words:
    assumed = finding.several(Assumption, "assumed")
    said = "; ".join(_assumed(one) for one in assumed)
    keys = [reader.key(_STATED[one.what]) for one in assumed if one.what in _STATED]
    if not keys:
        return Words(f"Not stated, so assumed: {said}.", "Look whether that is so.")
    *first, last = dict.fromkeys(keys)
    stated = f"{', '.join(first)} and {last}" if first else last
    return Words(f"Not stated, so assumed: {said}.", f"State {stated}.")


# What is assumed -> the key that states it, where there is one.
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


def _assumed(one: Assumption) -> str:
    size = show_both(one.size, 0)
    return {
        "web length": f"nose and web are {size} long",
        "clear span": f"the nose is clear over {size} between what carries it",
        "no plate": "no push plate is in the way, for the reach of the nose is not stated",
        "plate width": f"the push plate is {size} wide across the bar",
        "plate length": "the push plate goes on along the nose",
        "ram width": f"what moves or holds the push plate is {size} across",
        "shoulder height": f"the shoulders stand only {size} above a bed",
        "outer edge": f"each shoulder reaches {size} past its round",
        "shoulder length": "the shoulders go on along the nose",
        "bed width": "the bed goes on past the ends of the bar",
        "column width": f"each column is {size} wide across the bar",
        "column length": f"each column is {size} long along the nose",
        "daylight": f"the nose stands {size} above the bar when it is laid in",
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
