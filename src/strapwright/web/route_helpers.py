"""What routes have in common: the workshop, a form as typed, a job of the address."""

from __future__ import annotations

import asyncio
import re
import threading
from collections.abc import AsyncIterator, Mapping
from typing import Annotated, cast

from fastapi import Depends, HTTPException, Request
from starlette.requests import ClientDisconnect

from strapwright.pages.long_work.attendance import attended_by
from strapwright.pages.workshop import OpenJob, Workshop
from strapwright.store import Missing

_MOST_FIELDS = 1000
_ID = re.compile(r"[0-9a-f]{32}")


def workshop_of(request: Request) -> Workshop:
    """Return what the pages work on."""
    return cast("Workshop", request.app.state.workshop)


async def form_of(request: Request) -> Mapping[str, str]:
    """Return what was typed; files are taken by their own route."""
    try:
        async with request.form(max_files=0, max_fields=_MOST_FIELDS) as form:
            return {name: value for name, value in form.items() if isinstance(value, str)}
    except ClientDisconnect as error:
        # The next key was pressed before this form had come in whole: nobody waits for an answer.
        raise HTTPException(400) from error


def job_of(request: Request, job: str) -> OpenJob:
    """Open the job of the address; 404 where there is none."""
    if not _ID.fullmatch(job):
        raise HTTPException(404)
    try:
        return workshop_of(request).open(job)
    except Missing as error:
        raise HTTPException(404) from error


def is_number(text: str, digits: int = 8) -> bool:
    """Tell whether a text is a whole number of so many digits at most."""
    return text.isdecimal() and len(text) <= digits


def number_in(form: Mapping[str, str], name: str, otherwise: int, digits: int = 8) -> int:
    """Return a whole number of a form with so many digits at most."""
    text = form.get(name, "")
    return int(text) if is_number(text, digits) else otherwise


Shop = Annotated[Workshop, Depends(workshop_of)]
Typed = Annotated[Mapping[str, str], Depends(form_of)]
Opened = Annotated[OpenJob, Depends(job_of)]


async def attended(request: Request, typed: Typed) -> AsyncIterator[None]:
    """Let the work of a request end when its browser no longer waits for the answer."""
    del typed  # has come in whole before anybody listens for what comes after it
    left = threading.Event()

    async def listen() -> None:
        while (await request.receive())["type"] != "http.disconnect":
            pass
        left.set()

    listening = asyncio.create_task(listen())
    try:
        with attended_by(left.is_set):
            yield
    finally:
        listening.cancel()
