"""Whether the pages are shared on the network at this moment, where, and by which invitation."""

from __future__ import annotations

import threading
from collections.abc import Callable

from attrs import frozen

from strapwright.errors import InputError
from strapwright.pages.sharing.device_passes import Pass, Passes, Rights
from strapwright.pages.sharing.guess_limit import GuessLimit


@frozen(kw_only=True)
class Door:
    """Where the pages are reached from the network.

    Attributes
    ----------
    address, port
        That is listened on.
    secure
        Whether what is sent is encrypted, with a certificate of our own.
    fingerprint
        Of that certificate, to compare on the device; empty without one.
    """

    address: str
    port: int
    secure: bool = False
    fingerprint: str = ""

    @property
    def scheme(self) -> str:
        """How it is spoken to."""
        return "https" if self.secure else "http"

    @property
    def host(self) -> str:
        """With its port."""
        return f"{self.address}:{self.port}"

    @property
    def origin(self) -> str:
        """Scheme, address and port."""
        return f"{self.scheme}://{self.host}"

    def join(self, token: str) -> str:
        """Return the address that a device opens once to get in."""
        return f"{self.origin}/join?pass={token}"


@frozen(kw_only=True)
class Opener:
    """What opens and shuts the door: given by the server, which the pages do not know."""

    open: Callable[[bool], Door]
    shut: Callable[[], None]


class SharingNow:
    """The door, the passes and the invitation that is shown; safe to use from several threads.

    Parameters
    ----------
    passes
        Of the store.
    limit
        Of wrong tokens.
    """

    def __init__(self, passes: Passes, limit: GuessLimit | None = None) -> None:
        self.passes = passes
        self.limit = limit or GuessLimit()
        self.opener: Opener | None = None
        self._lock = threading.Lock()
        self._door: Door | None = None
        self._shown: tuple[Pass, str] | None = None

    @property
    def door(self) -> Door | None:
        """Where the pages are shared, ``None`` while they are not."""
        return self._door

    @property
    def shown(self) -> tuple[Pass, str] | None:
        """The invitation made last and its token, while it holds; a restart forgets the token."""
        kept = self._shown
        return kept if kept is not None and self.passes.holds(kept[0]) else None

    def begin(self, *, secure: bool) -> Door:
        """Open the door; where it is open already it stays as it is.

        Raises
        ------
        InputError
            If this machine has no address on a network, or the port is taken.
        """
        with self._lock:
            if self._door is None:
                if self.opener is None:
                    raise InputError(
                        "sharing", "the pages are not served by a server that can share them",
                        "start them with strapwright serve",
                    )  # fmt: skip
                self._door = self.opener.open(secure)
            return self._door

    def end(self) -> None:
        """Shut the door: devices are not served any more, their passes stay."""
        with self._lock:
            if self._door is not None and self.opener is not None:
                self.opener.shut()
            self._door = None

    def invite(self, name: str, rights: Rights, days: float) -> str:
        """Make an invitation, show it from now on, and return its token.

        Raises
        ------
        InputError
            If a figure cannot be, or there are too many passes.
        """
        made = self.passes.invite(name, rights, days)
        self._shown = made
        return made[1]
