"""The toolings that a search found, side by side, and taking one into the job."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from attrs import frozen

from strapwright.errors import InputError
from strapwright.making.shop_lengths import size
from strapwright.pages.long_work.search_request import Asked, AskedPart, digest_of
from strapwright.pages.shelves import kept
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.quantities import Units, show_force
from strapwright.shop_files.opening import parse
from strapwright.shop_files.updating import update_job
from strapwright.store import Search
from strapwright.wording.bars_and_money.offer_words import nothing_words, offer_cost

_SPANS = {"web": "web, along the nose"}
MOST_PARTS = 30  # jobs offered to be made on the same tooling


@frozen(kw_only=True)
class Offer:
    """One tooling proposed.

    Attributes
    ----------
    name
        Nose on shoulders.
    cost, money
        In the currency of the rates, else in the rack's money, and what it is made of.
    figures
        Name and value, in the same order for every offer.
    gives_up
        Against the others, sentences.
    warnings
        Of the check, sentences: a weld that wants preheat.
    ways
        What there is no cutter for, with the way round that its hours count.
    cuts
        Use, piece and what it is cut from.
    picture
        At full stroke, empty where there is none.
    """

    name: str
    cost: str
    money: str
    figures: tuple[tuple[str, str], ...]
    gives_up: tuple[str, ...]
    warnings: tuple[str, ...]
    ways: tuple[str, ...]
    cuts: tuple[tuple[str, str, str], ...]
    picture: str


@frozen(kw_only=True)
class Found:
    """What a search found.

    Attributes
    ----------
    offers
        At most three, the cheapest first.
    nearest
        What the nearest miss lacks, empty where an offer is there.
    fell_out
        Count, reason and example.
    tried, planned
        Candidates and plans.
    parts
        Names of the parts it was searched for.
    crib
        Whether hours are by the cutters of the crib; else by a usual set.
    ran_out
        What the time did not reach, empty where everything was decided.
    lower
        What does at a lower relief, empty where nothing is known to.
    nothing
        That no tooling was found: on the rack, or among what the time allowed.
    """

    offers: tuple[Offer, ...]
    nearest: str
    fell_out: tuple[tuple[int, str, str], ...]
    tried: int
    planned: int
    parts: tuple[str, ...]
    crib: bool
    ran_out: str = ""
    lower: str = ""
    nothing: str = ""


def begin_search(shop: Workshop, opened: OpenJob, also: tuple[str, ...]) -> Search:
    """Begin a search for a job, and for others that are to be made on the same tooling.

    Parameters
    ----------
    shop
        With its rack.
    opened
        The job.
    also
        Ids of other jobs.

    Raises
    ------
    InputError
        If there is no rack, a job cannot be read, or too many searches run.
    Missing
        If there is no such job.
    """
    rack = kept(shop, "rack")
    if not rack.id:
        raise InputError("rack", "the rack is empty", "list what you have, or import a rack file")
    items = [opened, *(shop.open(one) for one in also[:MOST_PARTS] if one != opened.item.id)]
    for one in items:
        shop.read(one.text)
    return shop.searcher.begin(opened.item.id, _asked(shop, items))


def _asked(shop: Workshop, items: Sequence[OpenJob]) -> Asked:
    crib = kept(shop, "crib")
    return Asked(
        parts=tuple(
            AskedPart(id=one.item.id, text=one.text, beside=shop.store.beside(one.text))
            for one in items
        ),
        rack=kept(shop, "rack").text,
        crib=crib.text if crib.id else None,
    )


def still_asked(shop: Workshop, opened: OpenJob, search: Search) -> bool:
    """Whether every part, press, rack and crib are still what a finished search was asked from.

    Parameters
    ----------
    shop
        As it is now.
    opened
        The job searched for, as it is now.
    search
        Finished.

    Raises
    ------
    InputError
        If a job is no readable file any more.
    Missing
        If another of its parts is not kept any more.
    """
    # One that does not say its parts was not asked with a crib either.
    jobs = json.loads(search.result).get("jobs", ())
    items = [opened, *(shop.open(one) for one in jobs[1:])]
    return search.asked == digest_of(_asked(shop, items))


def found_by(search: Search, currency: str = "") -> Found:
    """Return what a finished search found; ``currency`` of the shop's rates, empty for none."""
    data = json.loads(search.result)
    units: Units = "metric" if data["units"] == "metric" else "inch"
    nearest = data["nearest"]
    return Found(
        offers=tuple(_offer(one, units, currency) for one in data["proposals"]),
        nearest="" if nearest is None else str(nearest["text"]),
        fell_out=tuple((one["count"], one["reason"], one["example"]) for one in data["fell_out"]),
        tried=data["tried"],
        planned=data["planned"],
        parts=tuple(data["parts"]),
        crib=data.get("crib", False),
        ran_out=data.get("ran_out", ""),
        lower=(data.get("lower_relief") or {}).get("text", ""),  # older searches do not say
        nothing=nothing_words(all_tried=not data.get("untried")),
    )


def with_offer(text: str, search: Search, number: int) -> tuple[str, str]:
    """Return a job file with a tooling that was proposed, and its name.

    Parameters
    ----------
    text
        The job file.
    search
        Finished.
    number
        Of the offer, from 1.

    Raises
    ------
    InputError
        If there is no such offer.
    """
    offers = json.loads(search.result)["proposals"] if search.state == "done" else []
    if not 1 <= number <= len(offers):
        raise InputError("offer", "there is no such proposal", "choose one of those shown")
    written = parse(offers[number - 1]["tooling"])["tooling"]
    bare = update_job(text, {"tooling": None})
    return update_job(bare, {"tooling": written}), _name(offers[number - 1])


def _name(one: dict[str, Any]) -> str:
    return f"{one['choice']['nose']} on {one['choice']['shoulders']}"


def _offer(one: dict[str, Any], units: Units, currency: str) -> Offer:
    def length(key: str) -> str:
        return size(one[key] or 0.0, units)

    force = one["peak_force_N"]
    cost, counted = offer_cost(one["cost"], one["material"], one["hours"], currency, whole=True)
    return Offer(
        name=_name(one),
        cost=cost,
        money=counted,
        figures=(
            ("weakest member", f"{100 * one['worst_ratio']:.0f} %, {one['weakest']}"),
            ("pushes with up to", show_force(force, "lbf" if units == "inch" else "kN")),
            ("opening", length("opening_mm")),
            ("inside radius", length("nose_radius_mm")),
            ("depth", length("depth_mm")),
            ("push plate face to nose tip", length("reach_mm")),
            (_SPANS.get(one["choice"].get("held"), "between carriers"), length("span_mm")),
            ("height", length("height_mm")),
        ),
        gives_up=(*_made_as(one), *one["gives_up"]),
        warnings=tuple(one.get("warnings", ())),  # older searches do not say
        ways=tuple(one.get("not_in_crib", ())),  # older searches do not say
        cuts=tuple((cut["use"], _cut(cut, units), cut["stock"]) for cut in one["cuts"]),
        picture=one["picture"],
    )


def _made_as(one: dict[str, Any]) -> tuple[str, ...]:
    """How nose and shoulders are held where it is not the usual way; older searches do not say."""
    usual = one["choice"].get("held", "both ends") == "both ends"
    if usual and not one["choice"].get("side_plates", False):
        return ()
    return (f"is made otherwise: {one['made_as']}",)


def _cut(cut: dict[str, Any], units: Units) -> str:
    long = size(cut["length_mm"], units)
    # A round has its diameter for a width, and is only cut to length.
    round_bar = cut["use"] == "nose" or cut["use"].endswith("shoulder")
    return long if round_bar else f"{long} x {size(cut['width_mm'], units)}"
