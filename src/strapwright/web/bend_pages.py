"""The bends: their order, and one page a bend with the ram under a finger."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any
from urllib.parse import urlencode

from attrs import evolve
from fastapi import APIRouter, Depends, HTTPException, Request
from starlette.responses import Response

from strapwright.errors import InputError
from strapwright.pages import plan_page, refused_page
from strapwright.pages.bench.work_lines import bend_lines, work_head, work_lines
from strapwright.pages.edited_job import plan_or_said
from strapwright.pages.fields.form_changes import move_bend, with_order
from strapwright.pages.long_work.searching_on import undecided
from strapwright.pages.page_statements import Said, told
from strapwright.pages.played_bend import curve_pictures
from strapwright.pages.push_answer import push_answer
from strapwright.pages.remedy_offers import offered, offered_text
from strapwright.pages.sharing.own_view import seen
from strapwright.pages.shop_work.limits_page import pump_line
from strapwright.pages.taking_remedies import taken
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.planning.plan_values import Plan, Step
from strapwright.store import Conflict
from strapwright.web.alike_bends import alike_bends
from strapwright.web.job_view import head
from strapwright.web.played_bend_view import stills, telling, ticks
from strapwright.web.rendering import go, own_view, page, who_asks
from strapwright.web.route_helpers import Opened, Shop, Typed, attended, is_number, number_in

router = APIRouter(prefix="/jobs/{job}", dependencies=[Depends(attended)])
_GONE = urlencode({"said": "What was found is no longer there: look again."})
_ELSEWHERE = urlencode(
    {
        "said": "The job was saved elsewhere in the meantime, so the order was not changed. This "
        "is how it stands now."
    }
)


_BESIDE: Mapping[str, Callable[[Workshop, OpenJob], None]] = {
    "search-on": Workshop.search_on,
    "stop-searching": lambda shop, opened: shop.seeking.stop(shop.of(opened)),
    "look-no-more": lambda shop, opened: shop.seeking.look_no_more(shop.of(opened)),
    "look-again": lambda shop, opened: shop.seeking.look_no_more(shop.of(opened), again=True),
}


@router.get("/bends")
def order_page(request: Request, opened: Opened, shop: Shop, said: str = "") -> Response:
    """Show the bends in the order they are made."""
    made, refusal = plan_or_said(shop, opened.text)
    # What is over by now has left its plan, which is asked for after it.
    searches_on = looking = None
    if made is not None:
        searches_on, looking = shop.go_on(opened), shop.look(opened)
        made, refusal = plan_or_said(shop, opened.text)
    view = own_view(request)
    values: dict[str, Any] = {
        **head(shop, opened, "bends", made, view),
        "at_bends": True,
        "refusal": refusal,
    }
    made = None if made is None else seen(made, view)
    values |= {
        "remedies": None if made is None else offered(made),
        "looking": looking,
        "look_stopped": shop.seeking.looks_no_more(shop.of(opened)),
        "search_said": shop.seeking.said(shop.of(opened)),
        "undecided": made is not None and undecided(made),
        "searches_on": searches_on,
        "said": said[:300],
        "stated": made is not None and made.job.part.order is not None,
        "steps": [],
        "first": None,
        "alike": (),
        "bench_head": "" if made is None else work_head(made),
        "bench_work": () if made is None else work_lines(made),
        "handling": "" if made is None else plan_page.handling_words(made),
    }
    findings = () if made is None else _not_linked(plan_page.findings(made), "bends")
    folds = {} if made is None else {one.bend: one for one in refused_page.folds(made, findings)}
    folded = [one for fold in folds.values() for one in fold.findings]
    stands = {step.bend for step in made.steps} if made is not None else set()
    values |= {
        "findings": findings,
        "whole": [one for one in findings if one.kind == "refusal" and one not in folded],
        "placeless": [fold for bend, fold in folds.items() if bend not in stands],
    }
    if made is not None and made.steps:
        clashes = [refused_page.clash(made, step) for step in made.steps]
        # A part with a bend that cannot be made is not played.
        stage = None if any(clashes) else shop.stage(opened.text, None, view)
        values["stage"] = stage
        shown = [None] * len(made.steps) if stage is None else telling(stage)
        alike = () if values["banner"] else alike_bends(made)
        values["alike"] = alike
        values["steps"] = [
            {
                "bend": step.bend,
                "line": plan_page.step_line(made, step),
                "numbers": plan_page.step_numbers(made, step)[:1],
                "turn": plan_page.loaded_angle(made, step),
                "off": plan_page.coming_off(step),
                "still": still,
                "clash": clash,
                "fold": folds[step.bend],
                "alike": next((one for one in alike if step.bend in one.bends), None),
                "marks": plan_page.bend_marks(made, step),
            }
            for step, still, clash in zip(made.steps, shown, clashes, strict=True)
        ]
        # What is opened, and drawn large, of a refused part.
        values["first"] = next((one for one in values["steps"] if _refused(one)), None)
        values["first"] = values["first"] or values["steps"][0]
    return page(request, "bends.html", values)


def _not_linked(findings: tuple[Said, ...], here: str) -> tuple[Said, ...]:
    """Drop links to the page that they stand on."""
    return tuple(evolve(one, link="") if one.link == here else one for one in findings)


def _refused(shown: dict[str, Any]) -> bool:
    """Whether a bend has a reason of its own, and not only a part that cannot be made."""
    clash, fold = shown["clash"], shown["fold"]
    return bool(clash and clash.own) or bool(fold.reasons or fold.findings)


@router.post("/bends")
def change_order(request: Request, opened: Opened, shop: Shop, typed: Typed) -> Response:
    """Move a bend in the order, or go back to the natural order."""
    here = f"/jobs/{opened.item.id}/bends"
    who = who_asks(request)
    word, _, bend = typed.get("do", "").partition(":")
    if word in _BESIDE:
        _BESIDE[word](shop, opened)
    made, _ = plan_or_said(shop, opened.text)
    if made is None or word in _BESIDE:
        return go(here)
    order = tuple(step.bend for step in made.steps)
    if word == "remedy":
        base = number_in(typed, "base", opened.version)
        return _take(opened, shop, made, bend, base, who)
    order_wanted: tuple[int, ...] | None = None
    if len(order) < len(made.job.part.bends):
        return go(here)  # one that jams has no place in it
    if word in ("earlier", "later") and is_number(bend):
        order_wanted = move_bend(order, int(bend), -1 if word == "earlier" else 1)
    elif word != "natural":
        return go(here)
    text = with_order(opened.text, order_wanted)
    base = number_in(typed, "base", opened.version)
    try:
        shop.save(opened.item.id, text, base, "order of the bends", who, typed=False)
    except Conflict:
        return go(f"{here}?{_ELSEWHERE}")
    return go(f"{here}#bend-{bend}" if bend else here)


def _take(
    opened: OpenJob, shop: Workshop, made: Plan, number: str, base: int, who: str
) -> Response:
    """Put what makes a refused part into its job."""
    here = f"/jobs/{opened.item.id}/bends"
    found = () if made.remedies is None else made.remedies.found
    if not is_number(number) or int(number) >= len(found):
        return go(f"{here}?{_GONE}")
    remedy = found[int(number)]
    try:
        text = taken(opened.text, shop.read(opened.text), remedy)
        note = offered_text(made, remedy)[:200]
        shop.save(opened.item.id, text, base, note, who, typed=False)
    except Conflict:
        return go(f"{here}?{_ELSEWHERE}")
    except InputError as error:
        return go(f"{here}?{urlencode({'said': told(error)})}")
    return go(here)


@router.get("/bends/whole")
def whole_page(request: Request, opened: Opened, shop: Shop) -> Response:
    """Show the whole part being made, bend after bend."""
    made = _made(shop, opened)
    if not refused_page.can_be_played(made):
        return go(f"/jobs/{opened.item.id}/bends")
    view = own_view(request)
    stage = shop.stage(opened.text, None, view)
    values = {
        **head(shop, opened, "bends", made, view),
        "stage": stage,
        "ticks": ticks(stage),
        "stills": stills(stage),
        "load_name": "gauge" if made.steps[0].gauge else "force",
    }
    made = seen(made, view)
    values |= {
        "steps": [
            {
                "bend": step.bend,
                "line": plan_page.step_line(made, step),
                "turn": plan_page.loaded_angle(made, step),
                "off": plan_page.coming_off(step),
            }
            for step in made.steps
        ],
    }
    return page(request, "whole.html", values)


@router.get("/bends/whole/frames.json")
def whole_frames(request: Request, opened: Opened, shop: Shop) -> dict[str, Any]:
    """Give the pictures of the whole part, made beforehand."""
    made = _made(shop, opened)
    if not refused_page.can_be_played(made):
        raise HTTPException(404)
    return shop.stage(opened.text, None, own_view(request)).data


@router.get("/bends/{bend}")
def bend_page(
    request: Request, bend: int, opened: Opened, shop: Shop, stands: str = ""
) -> Response:
    """Show one bend with the ram to move."""
    bends, _ = plan_or_said(shop, opened.text)
    placed = bends is not None and bend in {step.bend for step in bends.steps}
    if bends is not None and not placed and 1 <= bend <= len(bends.job.part.bends):
        # One that jams has no place in the order: its reasons are folded on the page of all.
        return go(f"/jobs/{opened.item.id}/bends#bend-{bend}")
    made, step = _step(shop, opened, bend)
    order = [one.bend for one in made.steps]
    place, view = order.index(bend), own_view(request)
    values = {
        **head(shop, opened, "bends", made, view),
    }
    made = seen(made, view)
    values |= {
        "bend": bend,
        "read_loaded": plan_page.loaded_caution(),
        "place": place + 1,
        "count": len(order),
        "before": order[place - 1] if place else None,
        "after": order[place + 1] if place + 1 < len(order) else None,
        **plan_page.hold_lines(made, step),
        **bend_lines(made, step),
        "findings": _not_linked(plan_page.findings(made, bend), f"bends/{bend}"),
    }
    clash = refused_page.clash(made, step)
    if clash is not None:
        return page(request, "refused_bend.html", {**values, "clash": clash})
    stage = shop.stage(opened.text, bend, view)
    further, wrong = push_answer(made, step, stands)
    values |= {
        "step": step,
        "turn": plan_page.turn_number(made, step),
        "numbers": plan_page.step_numbers(made, step),
        "staged": plan_page.staged(made, step),
        "pump": pump_line(made, step),
        "off": plan_page.coming_off(step),
        "unsearched": plan_page.why_not_off(made),
        "end_stop": plan_page.end_stop(made, step),
        "stands": stands[:20],
        "further": further,
        "wrong": wrong,
        "stage": stage,
        "ticks": ticks(stage),
        "stills": stills(stage),
        "curves": curve_pictures(made, step),
    }
    return page(request, "bend.html", values)


@router.get("/bends/{bend}/frames.json")
def frames(request: Request, bend: int, opened: Opened, shop: Shop) -> dict[str, Any]:
    """Give the pictures of a bend, made beforehand."""
    made, step = _step(shop, opened, bend)
    if not refused_page.can_be_played(made, step):
        raise HTTPException(404)
    return shop.stage(opened.text, bend, own_view(request)).data


@router.get("/bends/{bend}/more.json")
def more(
    request: Request, bend: int, opened: Opened, shop: Shop, stands: str = ""
) -> dict[str, str]:
    """Say how much more to push."""
    made, step = _step(shop, opened, bend)
    further, wrong = push_answer(seen(made, own_view(request)), step, stands)
    return {"further": further, "wrong": wrong}


def _made(shop: Workshop, opened: OpenJob) -> Plan:
    made, _ = plan_or_said(shop, opened.text)
    if made is None or not made.steps:
        raise HTTPException(404)
    return made


def _step(shop: Workshop, opened: OpenJob, bend: int) -> tuple[Plan, Step]:
    made = _made(shop, opened)
    for step in made.steps:
        if step.bend == bend:
            return made, step
    raise HTTPException(404)
