"""Run the pages on the loopback address of this machine: the server starts from above the pages."""

from __future__ import annotations

import socket
import threading
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.workshop import Workshop, default_store
from strapwright.service.demo import JOBS, NAMES
from strapwright.store import open_store

if TYPE_CHECKING:
    from fastapi import FastAPI

ADDRESS = "127.0.0.1"
APPLICATION = "strapwright.serving:served_app"


@frozen(kw_only=True)
class Served:
    """What is being served, and on which port."""

    workshop: Workshop
    port: int


_now: list[Served] = []


def served_app() -> FastAPI:
    """Make the application for what this process serves; the pages load only now."""
    from strapwright.web.app import create_app  # noqa: PLC0415  after the socket listens

    what = _now[-1]
    return create_app(what.workshop, what.port)


def serve(*, port: int, folder: Path | None, ready: Callable[[str, Path], None]) -> None:
    """Serve until the person stops it.

    Parameters
    ----------
    port
        0 takes a free one.
    folder
        Of the store; the user's data folder where not given.
    ready
        Called with the address and the store's folder once it listens.

    Raises
    ------
    InputError
        If the port is taken.
    StoreError
        If the store cannot be opened.
    """
    import uvicorn  # noqa: PLC0415  other commands need no server

    with open_store(folder or default_store()) as store:
        listening = _listen(port)
        chosen = listening.getsockname()[1]
        workshop = Workshop(store)
        _now.append(Served(workshop=workshop, port=chosen))
        threading.Thread(target=_warm, args=(workshop,), daemon=True).start()
        settings = uvicorn.Config(
            APPLICATION,
            factory=True,
            log_level="warning",
            access_log=False,
            server_header=False,
            date_header=False,
            proxy_headers=False,
            timeout_graceful_shutdown=2,
        )
        ready(f"http://{ADDRESS}:{chosen}/", store.folder)
        uvicorn.Server(settings).run(sockets=[listening])


def _listen(port: int) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((ADDRESS, port))
    except OSError as error:
        listening.close()
        raise InputError(
            "--port",
            f"the port cannot be used ({error.strerror})",
            "name another one, for example --port 8118",
            value=str(port),
        ) from error
    listening.listen(64)  # requests wait from here on, while the pages are loaded
    return listening


def _warm(workshop: Workshop) -> None:
    """Load the compiled loops before the first page waits for them."""
    workshop.plan((JOBS / f"{NAMES[0]}.toml").read_text(encoding="utf-8"))
