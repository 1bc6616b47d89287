"""What every request and answer goes through: who may ask, how much, and what a page may do."""

from __future__ import annotations

import json
from collections.abc import Iterable

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_BODY = 1_200_000  # bytes; the largest job file and its envelope
_SAFE = ("GET", "HEAD")
# No script, style, font, picture or connection from anywhere but here, and nothing inline.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}


class Guard:
    """Refuses other hosts' names, other pages' requests and too large bodies.

    A page of another site can make a browser send requests here, also under a name of its own that
    resolves to this machine; so the name asked for and the page that asks are both checked.

    Parameters
    ----------
    app
        What is guarded.
    port
        The port served, which names and origins carry.
    """

    def __init__(self, app: ASGIApp, port: int) -> None:
        self.app = app
        self.hosts = frozenset(f"{name}:{port}" for name in ("127.0.0.1", "localhost", "[::1]"))
        self.origins = frozenset(f"http://{host}" for host in self.hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer or pass on."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
        if scope["type"] != "http":
            return
        refusal = self._refusal(scope["method"], Headers(scope=scope))
        if refusal is not None:
            await _answer(send, *refusal)
            return
        await self.app(scope, _Limited(receive), _Dressed(send))

    def _refusal(self, method: str, headers: Headers) -> tuple[int, str] | None:
        if headers.get("host") not in self.hosts:
            return 421, "This server answers only to the name of this machine itself."
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > LARGEST_BODY:
            return 413, _TOO_LARGE
        if (
            headers.get("sec-fetch-site") == "cross-site"
            and headers.get("sec-fetch-mode") != "navigate"
        ):
            return 403, "Another site's page asked for this; that is not allowed."
        if method not in _SAFE and headers.get("origin") not in self.origins:
            return 403, "This did not come from a page of this server, so nothing was changed."
        return None


class _Limited:
    """Hands on what comes in until it is too much, whatever length was promised."""

    def __init__(self, receive: Receive) -> None:
        self.receive = receive
        self.taken = 0

    async def __call__(self) -> Message:
        message = await self.receive()
        self.taken += len(message.get("body", b""))
        if self.taken > LARGEST_BODY:
            raise HTTPException(413)  # the application answers it as any other
        return message


class _Dressed:
    """Sends answers with the headers that every answer carries."""

    def __init__(self, send: Send) -> None:
        self.send = send

    async def __call__(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            found = MutableHeaders(scope=message)
            for name, value in _HEADERS.items():
                found[name] = value
            found.setdefault("cache-control", "no-store")
        await self.send(message)


_TOO_LARGE = "That is larger than a job file can be (1 MB); nothing was saved."


async def _answer(send: Send, status: int, sentence: str) -> None:
    extra: Iterable[tuple[bytes, bytes]] = (
        (name.encode(), value.encode()) for name, value in _HEADERS.items()
    )
    body = json.dumps({"said": sentence}).encode()
    await send(
        {
            "type": "http.response.start",
            "status": status,
            "headers": [
                (b"content-type", b"application/json"),
                (b"connection", b"close"),
                *extra,
            ],
        }
    )
    await send({"type": "http.response.body", "body": body})
