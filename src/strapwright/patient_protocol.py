"""The wire: whoever begins a request and does not end it, or opens too many, is cut off."""

from __future__ import annotations

import asyncio
import socket
from collections import Counter
from functools import partial
from typing import Any, cast

from uvicorn import Server
from uvicorn.protocols.http.h11_impl import H11Protocol

HEADERS_WITHIN = 10.0  # s from the first byte, or from connecting, to the end of the headers
MOST_CONNECTIONS = 64  # of one address; a browser opens six, a phone with streams a few more
MOST_IN_ALL = 400  # so that files are left for the store and for this machine's own pages

_OWN = "127.0.0.1"

_open: Counter[str] = Counter()


class PatientProtocol(H11Protocol):
    """HTTP as the server speaks it, with a limit on how long headers may take to come."""

    _late: asyncio.TimerHandle | None = None
    _from: str | None = None  # whose connection it is, where it was taken

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin to wait for a request."""
        super().connection_made(transport)
        peer, here = (transport.get_extra_info(name) for name in ("peername", "sockname"))
        address = str(peer[0]) if peer else ""
        # Whoever sits at this machine is not shut out by how many others come.
        own = bool(here) and here[0] == _OWN
        if _open[address] >= MOST_CONNECTIONS or (not own and _open.total() >= MOST_IN_ALL):
            transport.abort()
            return
        self._from = address
        _open[address] += 1
        self._wait()

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget the connection."""
        self._stop()
        if self._from is not None:
            _open[self._from] -= 1
            if _open[self._from] <= 0:
                del _open[self._from]
            self._from = None
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        """Take what comes; a request whose headers are whole is waited for no more."""
        super().data_received(data)
        cycle = cast("Any", self.cycle)
        if cycle is None or cycle.response_complete:
            self._wait()
        else:
            self._stop()

    def _wait(self) -> None:
        if self._late is None:
            self._late = self.loop.call_later(HEADERS_WITHIN, self._cut_off)

    def _stop(self) -> None:
        if self._late is not None:
            self._late.cancel()
            self._late = None

    def _cut_off(self) -> None:
        self._late = None
        if not self.transport.is_closing():
            self.transport.abort()


class QuickHandshakes(Server):
    """A server for which an encrypted connection that does not come about is cut off as early."""

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to listen."""
        loop: Any = asyncio.get_running_loop()
        # The server library has no setting for it, and holds a silent connection for a minute.
        loop.create_server = partial(loop.create_server, ssl_handshake_timeout=HEADERS_WITHIN)
        await super().startup(sockets)
