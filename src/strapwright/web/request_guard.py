"""What every request and answer goes through: who may ask, how much, and what a page may do."""

from __future__ import annotations

import asyncio
import contextlib
import html
import json
import math
import re
from collections.abc import Callable

from attrs import frozen
from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.requests import HTTPConnection
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from strapwright.pages.sharing.device_passes import Pass
from strapwright.pages.sharing.sharing_now import SharingNow

DEVICE = "device"  # cookie: what lets a device in
LARGEST_BODY = 1_200_000  # bytes; the largest job file and its envelope
MOST_DIGITS = 100  # in a row in an address; what a message quotes is shorter (common practice)
_BROKE = "Something broke in the program itself; what was saved is safe. Go back and try again."
_LONG = "A number in this address is too long; open the page again from the start page."
_LONG_NUMBER = re.compile(b"(?:[0-9]|%%3[0-9]){%d,}" % (MOST_DIGITS + 1))
LARGEST_BACKUP = 300_000_000  # bytes; a store of thousands of jobs (common practice, no source)
_BACKUP = "/settings/restore"
# Beginning of an address that is the machine's own, whatever a device may -> what is said of it.
_OWN_ALONE = {
    "/sharing": "Sharing is set on the machine that serves the pages.",
    _BACKUP: "A backup is restored on the machine that serves the pages.",
}
_DRAIN_MOST, _DRAIN_FOR = 20_000_000, 10.0  # bytes, s; of what is dropped (common practice)
_SAFE = ("GET", "HEAD")
_LENGTH = re.compile(r"[0-9]{1,12}")
_HTTP, _HTTPS = 80, 443  # the ports of the schemes (RFC 9110, sections 4.2.1 and 4.2.2)
_LOOPBACK = ("127.0.0.1", "::1")
_FOR_ALL = ("/look", "/leave", "/settings/mine")  # change nothing but the browser itself
_WHOLE_STORE = ("/backup.db", "/everything.zip")
_STRANGER = "This device has no pass. Scan the code on the machine that serves the pages."
_PLAIN_PAGE = (
    '<!doctype html><html lang="en"><meta charset="utf-8">'
    '<meta name="viewport" content="width=device-width, initial-scale=1">'
    "<title>Strapwright</title><p>{said}</p></html>"
)
# No script, style, font, picture or connection from anywhere but here, and nothing inline.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; "
    "connect-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'"
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
    """Refuses other hosts' names, other pages' requests, large bodies, and devices without a pass.

    A page of another site can make a browser send requests here, also under a name of its own that
    resolves to this machine; so the name asked for and the page that asks are both checked.  Who
    comes in at the loopback address sits at this machine; who comes in at another needs a pass.
    Which it is the socket says, not the request.

    Parameters
    ----------
    app
        What is guarded.
    port
        The port served on this machine, which names and origins carry.
    sharing
        Door and passes; ``None`` where nothing is ever shared.
    """

    def __init__(self, app: ASGIApp, port: int, sharing: SharingNow | None = None) -> None:
        self.app = app
        self.hosts = frozenset(
            host for name in ("127.0.0.1", "localhost", "[::1]") for host in hosts_of(name, port)
        )
        self.origins = frozenset(f"http://{host}" for host in self.hosts)
        self.sharing = sharing

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer or pass on."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
        if scope["type"] != "http":
            return
        headers = Headers(scope=scope)
        if came_from_this_machine(scope):
            refusal = self._refusal(scope, headers, self.hosts, self.origins)
            if refusal is not None:
                await _drained(refusal, receive)
                await _answer(send, refusal, headers)
                return
            await self._pass_on(scope, headers, receive, _Dressed(send))
            return
        await self._shared(scope, headers, receive, send)

    async def _shared(self, scope: Scope, headers: Headers, receive: Receive, send: Send) -> None:
        door = None if self.sharing is None else self.sharing.door
        if self.sharing is None or door is None:
            await _answer(send, Refusal(403, "The pages are not shared."), headers)
            return
        refusal = self._refusal(
            scope,
            headers,
            frozenset(hosts_of(door.address, door.port, secure=door.secure)),
            frozenset(
                f"{door.scheme}://{host}"
                for host in hosts_of(door.address, door.port, secure=door.secure)
            ),
        )
        if refusal is not None:
            await _drained(refusal, receive)
            await _answer(send, refusal, headers)
            return
        if scope["path"] == "/join":  # shows its own pass, and is slowed down there
            await self._pass_on(scope, headers, receive, _Dressed(send))
            return
        found = _pass_of(scope, self.sharing, secure=door.secure)
        if isinstance(found, Refusal):
            await _answer(send, found, headers)
            return
        scope.setdefault("state", {})["device"] = found
        passes = self.sharing.passes
        dressed = _Dressed(send, lambda: passes.holds(found))
        await self._pass_on(scope, headers, receive, dressed)

    async def _pass_on(
        self, scope: Scope, headers: Headers, receive: Receive, send: _Dressed
    ) -> None:
        """Let the application answer; what it could not is answered here, dressed as the rest."""
        if _has_long_number(scope):
            await _answer(send, Refusal(400, _LONG), headers)
            return
        taken: Receive = _Limited(receive, _largest(scope))
        given: Send = send
        if scope["method"] == "HEAD":
            # As the same GET without a body (RFC 9110, section 9.3.2); a stream ends at its head.
            scope = {**scope, "method": "GET"}
            head = _HeadOnly(taken, send)
            taken, given = head.receive, head.send
        try:
            await self.app(scope, taken, given)
        except Exception:
            if not send.begun:
                await _answer(send, Refusal(500, _BROKE), headers)
            raise  # the server's log has it

    def _refusal(
        self,
        scope: Scope,
        headers: Headers,
        hosts: frozenset[str],
        origins: frozenset[str],
    ) -> Refusal | None:
        if headers.get("host") not in hosts:
            return Refusal(421, "This server answers only to the name of this machine itself.")
        length = headers.get("content-length", "0")
        if not _LENGTH.fullmatch(length) or int(length) > _largest(scope):
            return Refusal(413, too_large_words(scope["path"]))
        if (
            headers.get("sec-fetch-site") == "cross-site"
            and headers.get("sec-fetch-mode") != "navigate"
        ):
            return Refusal(403, "Another site's page asked for this; that is not allowed.")
        if scope["method"] not in _SAFE and headers.get("origin") not in origins:
            return Refusal(
                403, "This did not come from a page of this server, so nothing was changed."
            )
        return None


@frozen
class Refusal:
    """Why a request is not passed on.

    Attributes
    ----------
    status, sentence
        Of the answer.
    wait
        Seconds before the next try.
    forget
        Whether the browser is told to drop its pass, which holds no more.
    """

    status: int
    sentence: str
    wait: int = 0
    forget: bool = False


def _pass_of(scope: Scope, sharing: SharingNow, *, secure: bool) -> Pass | Refusal:
    """Return the pass of a request, or why it may not go on."""
    address = address_of(scope)
    token = HTTPConnection(scope).cookies.get(DEVICE, "")
    # A right pass is never slowed down, or whoever guesses would lock the shop's own devices out.
    found = sharing.passes.held(token, secure=secure) if token else None
    if found is None:
        waiting = sharing.limit.wait(address) if token else 0.0
        if waiting > 0:
            return too_many_tries(waiting)
        if token:
            sharing.limit.wrong(address)
        return Refusal(401, _STRANGER, forget=bool(token))
    for path, said in _OWN_ALONE.items():
        if scope["path"].startswith(path):
            return Refusal(403, said)
    looks = found.rights != "work"
    if looks and scope["path"] in _WHOLE_STORE:
        return Refusal(403, "This device may only look, so it is not given the whole store.")
    if looks and scope["method"] not in _SAFE and scope["path"] not in _FOR_ALL:
        return Refusal(403, "This device may only look, so nothing was changed.")
    return found


def hosts_of(name: str, port: int, *, secure: bool = False) -> tuple[str, ...]:
    """Return how a browser may name a server.

    The port that belongs to the scheme is left out (RFC 9110, sections 4.2.1 and 4.2.2; RFC 6454,
    section 6.1), and some programs name it all the same.

    Parameters
    ----------
    name
        Name or address of the server.
    port
        That it listens at.
    secure
        Whether it is asked over an encrypted connection.
    """
    usual = port == (_HTTPS if secure else _HTTP)
    return (f"{name}:{port}", name) if usual else (f"{name}:{port}",)


def _has_long_number(scope: Scope) -> bool:
    address = scope.get("raw_path") or scope["path"].encode()
    return any(_LONG_NUMBER.search(one) for one in (address, scope.get("query_string", b"")))


def came_from_this_machine(scope: Scope) -> bool:
    """Whether a request came in at the loopback address; what cannot be told did not."""
    server = scope.get("server")
    return server is not None and server[0] in _LOOPBACK


def _largest(scope: Scope) -> int:
    return LARGEST_BACKUP if scope["path"] == _BACKUP else LARGEST_BODY


def too_large_words(path: str) -> str:
    """Say what may be sent to an address at most."""
    if path == _BACKUP:
        return (
            f"That is larger than a backup can be on a page ({LARGEST_BACKUP // 1_000_000} MB); "
            "nothing was changed. Stop the server and use strapwright restore."
        )
    return "That is larger than a job file can be (1 MB); nothing was saved."


def address_of(scope: Scope) -> str:
    """Return the address of the device that asks; all without one count as one."""
    client = scope.get("client")
    return "" if client is None else str(client[0])


def too_many_tries(waiting: float) -> Refusal:
    """Refuse a device that showed too many wrong passes."""
    seconds = math.ceil(waiting)
    return Refusal(
        429, f"Too many wrong codes. Wait {seconds} s, then scan it again.", wait=seconds
    )


class _Limited:
    """Hands on what comes in until it is too much, whatever length was promised."""

    def __init__(self, receive: Receive, largest: int) -> None:
        self.receive = receive
        self.largest = largest
        self.taken = 0

    async def __call__(self) -> Message:
        message = await self.receive()
        self.taken += len(message.get("body", b""))
        if self.taken > self.largest:
            raise HTTPException(413)  # the application answers it as any other
        return message


class _HeadOnly:
    """Lets an answer go out without its body, and tells what makes it that nobody listens on."""

    def __init__(self, receive: Receive, send: Send) -> None:
        self._receive = receive
        self._send = send
        self._over = asyncio.Event()

    async def receive(self) -> Message:
        """Hand on what comes in until the head went out."""
        coming = asyncio.ensure_future(self._receive())
        over = asyncio.ensure_future(self._over.wait())
        try:
            await asyncio.wait((coming, over), return_when=asyncio.FIRST_COMPLETED)
            return coming.result() if coming.done() else {"type": "http.disconnect"}
        finally:
            coming.cancel()
            over.cancel()

    async def send(self, message: Message) -> None:
        """Send the head, and then that there is no more."""
        if self._over.is_set():
            return
        await self._send(message)
        if message["type"] == "http.response.start":
            self._over.set()
            await self._send({"type": "http.response.body", "body": b""})


class _Dressed:
    """Sends answers with the headers that every answer carries, for as long as the pass holds."""

    def __init__(self, send: Send, holds: Callable[[], bool] = lambda: True) -> None:
        self.send = send
        self.holds = holds
        self.ends = True
        self.over = False
        self.begun = False

    async def __call__(self, message: Message) -> None:
        if self.over:
            return
        if message["type"] == "http.response.start":
            self.begun = True
            # An answer of known length goes out whole; nothing else could end it.
            self.ends = "content-length" not in Headers(raw=message.get("headers", []))
        elif self.ends and not self.holds():
            # A stream to a device that was shut out ends here, not when the device likes.
            self.over = True
            await self.send({"type": "http.response.body", "body": b""})
            return
        if message["type"] == "http.response.start":
            found = MutableHeaders(scope=message)
            for name, value in _HEADERS.items():
                found[name] = value
            found.setdefault("cache-control", "no-store")
        await self.send(message)


async def _drained(refusal: Refusal, receive: Receive) -> None:
    """Take in what is too much, within reason, and drop it.

    Closed upon one that still sends, a connection is reset before the sentence is read.
    """
    if refusal.status != 413:
        return
    taken = 0
    with contextlib.suppress(TimeoutError):
        async with asyncio.timeout(_DRAIN_FOR):
            while taken < _DRAIN_MOST:
                message = await receive()
                taken += len(message.get("body", b""))
                if not message.get("more_body", False):
                    return


async def _answer(send: Send, refusal: Refusal, headers: Headers) -> None:
    for_person = "text/html" in headers.get("accept", "")
    more = [("content-type", "text/html; charset=utf-8" if for_person else "application/json")]
    if refusal.wait:
        more.append(("retry-after", str(refusal.wait)))
    if refusal.forget:
        more.append(("set-cookie", f"{DEVICE}=; Max-Age=0; Path=/; HttpOnly; SameSite=Lax"))
    if for_person:
        body = _PLAIN_PAGE.format(said=html.escape(refusal.sentence)).encode()
    else:
        body = json.dumps({"said": refusal.sentence}).encode()
    await send(
        {
            "type": "http.response.start",
            "status": refusal.status,
            "headers": [
                (name.encode(), value.encode())
                for name, value in (*_HEADERS.items(), ("connection", "close"), *more)
            ],
        }
    )
    await send({"type": "http.response.body", "body": body})
