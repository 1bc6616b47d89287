"""Run the pages on this machine, and on the network where asked: it starts from above the pages."""

from __future__ import annotations

import threading
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from attrs import frozen

from strapwright.pages.sharing.device_passes import Passes
from strapwright.pages.sharing.sharing_now import Opener, SharingNow
from strapwright.pages.workshop import Workshop, default_store
from strapwright.service.demo import JOBS, NAMES
from strapwright.shared_serving import SharedServer, listen
from strapwright.store import open_store

if TYPE_CHECKING:
    from fastapi import FastAPI

ADDRESS = "127.0.0.1"
APPLICATION = "strapwright.serving:served_app"


@frozen(kw_only=True)
class Served:
    """What is being served, on which port, and to whom beside this machine."""

    workshop: Workshop
    port: int
    sharing: SharingNow


@frozen(kw_only=True)
class Share:
    """How the pages are shared from the start.

    Attributes
    ----------
    begin
        Whether they are; else a page turns it on.
    address
        Of this machine on the network; found where empty.
    secure
        Whether with a certificate of our own.
    """

    begin: bool = False
    address: str = ""
    secure: bool = False


_now: list[Served] = []


def served_app() -> FastAPI:
    """Make the application for what this process serves; the pages load only now."""
    from strapwright.web.app import create_app  # noqa: PLC0415  after the socket listens

    what = _now[-1]
    return create_app(what.workshop, what.port, what.sharing)


def serve(
    *,
    port: int,
    folder: Path | None,
    ready: Callable[[str, Path, str, str], None],
    share: Share | None = None,
) -> None:
    """Serve until the person stops it.

    Parameters
    ----------
    port
        0 takes a free one.
    folder
        Of the store; the user's data folder where not given.
    ready
        Called once it listens, with the address, the store's folder, the address that lets a device
        in and its code for a terminal; both empty where the pages are not shared.
    share
        How the pages are shared from the start.

    Raises
    ------
    InputError
        If the port is taken, or there is no network to share on.
    StoreError
        If the store cannot be opened.
    """
    import uvicorn  # noqa: PLC0415  other commands need no server

    from strapwright.patient_protocol import PatientProtocol  # noqa: PLC0415

    with open_store(folder or default_store()) as store:
        listening = listen(ADDRESS, port, "--port")
        chosen = listening.getsockname()[1]
        workshop = Workshop(store)
        sharing = SharingNow(Passes(store))
        wanted = share or Share()
        shared = SharedServer(
            workshop, sharing, port=chosen, address=wanted.address, folder=store.folder
        )
        sharing.opener = Opener(open=shared.open, shut=shared.shut)
        _now.append(Served(workshop=workshop, port=chosen, sharing=sharing))
        link = code = ""
        if wanted.begin:
            from strapwright.sheets.joining_code import code_for_terminal  # noqa: PLC0415

            door = sharing.begin(secure=wanted.secure)
            link = door.join(sharing.invite("first code", "work", 1))
            code = code_for_terminal(link)
        threading.Thread(target=_warm, args=(workshop,), daemon=True).start()
        settings = uvicorn.Config(
            APPLICATION,
            factory=True,
            http=PatientProtocol,
            ws="none",
            log_level="warning",
            access_log=False,
            server_header=False,
            date_header=False,
            proxy_headers=False,
            timeout_graceful_shutdown=2,
        )
        ready(f"http://{ADDRESS}:{chosen}/", store.folder, link, code)
        try:
            uvicorn.Server(settings).run(sockets=[listening])
        finally:
            sharing.end()


def _warm(workshop: Workshop) -> None:
    """Load the compiled loops before the first page waits for them."""
    workshop.plan((JOBS / f"{NAMES[0]}.toml").read_text(encoding="utf-8"))
