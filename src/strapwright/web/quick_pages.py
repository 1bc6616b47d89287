"""Quick answers: one sum at a time, without a job."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Depends, Request
from starlette.responses import Response

from strapwright.errors import InputError, StrapwrightError
from strapwright.pages.shop_work.quick_answers import (
    LONGEST,
    QUESTIONS,
    gauges_pdf,
    question_of,
    quick_answer,
    said_of,
)
from strapwright.web.downloads import given
from strapwright.web.rendering import own_view, page
from strapwright.web.route_helpers import Shop, attended

router = APIRouter(dependencies=[Depends(attended)])


@router.get("/bench")
def bench_page(request: Request, shop: Shop) -> Response:
    """Show the questions, and the answer of the one that is asked."""
    question = question_of(request.query_params.get("ask", ""))
    typed = _typed(request)
    own = own_view(request).units or ""
    values: dict[str, Any] = {
        "questions": QUESTIONS,
        "asked": "" if question is None else question.name,
        "typed": typed,
        "units": own,
        "asked_units": request.query_params.get("units", own),
        "lines": (),
        "said": "",
    }
    if question is not None:
        try:
            values["lines"] = quick_answer(shop, question.name, typed, own or None)
        except InputError as error:
            values["said"] = said_of(question, error)
        except StrapwrightError as error:
            values["said"] = str(error)
    return page(request, "bench.html", values, 422 if values["said"] else 200)


@router.get("/bench/gauges.pdf")
def gauges(request: Request) -> Response:
    """Give the paper gauges of the angles typed."""
    return given("angle gauges.pdf", gauges_pdf(_typed(request)), "application/pdf", keep=False)


def _typed(request: Request) -> dict[str, str]:
    return {
        name: text.strip()
        for name, text in request.query_params.items()
        if name != "ask" and text.strip() and len(text) <= LONGEST
    }
