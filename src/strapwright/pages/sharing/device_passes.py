"""Passes: what lets a device of the shop's network in, for how long, and whether it may write.

An invitation is shown as an address and a code; each device that takes it gets a pass of its own,
so that one phone can be shut out alone.  Only digests are kept: whoever reads the store cannot get
in.
"""

from __future__ import annotations

import json
import secrets
import threading
import time
from collections.abc import Callable
from hashlib import sha256
from typing import Literal, get_args

from attrs import evolve, field, frozen

from strapwright.errors import InputError
from strapwright.service.network.kept_passes import PASSES
from strapwright.store import Store

Rights = Literal["work", "look"]
RIGHTS: tuple[Rights, ...] = get_args(Rights)
LONGEST_NAME = 40
MOST_PASSES = 60  # in all; a small shop has a few (common practice, no source)
MOST_DAYS = 365
_BYTES = 20  # of a token: 160 random bits, which nobody guesses
_DAY = 86_400.0  # s
_PUT_RIGHT = (
    3600.0  # s that a clock may be set back before passes stop (common practice, no source)
)
_SEEN_EVERY = 60.0  # s; how exactly it is kept when a device was last there

Clock = Callable[[], float]


@frozen(kw_only=True)
class Pass:
    """A pass as it is kept.

    Attributes
    ----------
    id
        By which it is revoked; no secret.
    name
        Of the device, or of whom the invitation is for.
    rights
        ``work``, or ``look`` for one that may change nothing.
    digest
        Of its token.
    made, until, seen
        When it was made, ends, and was last used [s since 1970]; ``seen`` 0 for never.
    invitation
        Whether it only serves to get a pass.
    by
        Id of the invitation it was got with; empty for an invitation.
    secure
        Whether it was given over an encrypted connection; another may have been read along.
    """

    id: str
    name: str
    rights: Rights
    digest: str = field(repr=False)
    made: float
    until: float
    seen: float = 0.0
    invitation: bool = False
    by: str = ""
    secure: bool = False


class Passes:
    """The passes of a store; safe to use from several threads.

    Parameters
    ----------
    store
        Where they are kept.
    clock
        Seconds since 1970.
    """

    def __init__(self, store: Store, clock: Clock = time.time) -> None:
        self._store = store
        self._clock = clock
        self._lock = threading.Lock()
        self._kept = {one.digest: one for one in _read(store.setting(PASSES) or "[]")}

    def invite(self, name: str, rights: Rights, days: float) -> tuple[Pass, str]:
        """Make an invitation.

        Parameters
        ----------
        name
            Whom it is for.
        rights
            Of those who take it.
        days
            How long it and all passes taken with it hold.

        Returns
        -------
        Pass, str
            The invitation, and its token, which is kept nowhere.

        Raises
        ------
        InputError
            If a figure cannot be, or there are too many passes.
        """
        if not 0 < days <= MOST_DAYS:
            raise InputError("days", "the days are out of range", f"give 1 to {MOST_DAYS}")
        if rights not in RIGHTS:
            raise InputError("rights", "this is no such right", "choose work or look")
        until = self._clock() + days * _DAY
        return self._add(_named(name), rights, until)

    def join(self, token: str, device: str, *, secure: bool = False) -> tuple[Pass, str] | None:
        """Make a pass for a device that shows an invitation.

        Parameters
        ----------
        token
            Of the invitation.
        device
            What kind of device it is.
        secure
            Whether it asks over an encrypted connection.

        Returns
        -------
        Pass and str, or None
            The pass and its token; ``None`` where the invitation does not hold.

        Raises
        ------
        InputError
            If there are too many passes.
        """
        found = self._find(token)
        if found is None or not found.invitation:
            return None
        return self._add(_named(device), found.rights, found.until, by=found.id, secure=secure)

    def held(self, token: str, *, secure: bool = False) -> Pass | None:
        """Return the pass that a token of a device opens, ``None`` where it opens none.

        Over an encrypted connection no pass is taken that was once sent in the open.
        """
        found = self._find(token)
        if found is None or found.invitation or (secure and not found.secure):
            return None
        now = self._clock()
        if abs(now - found.seen) > _SEEN_EVERY:  # also where the clock was set back since
            with self._lock:
                if found.digest in self._kept:
                    self._kept[found.digest] = evolve(self._kept[found.digest], seen=now)
                    self._keep()
        return found

    def holds(self, kept: Pass) -> bool:
        """Whether a pass still holds: not revoked, not over."""
        return kept.digest in self._kept and _is_on(kept, self._clock())

    def all(self) -> tuple[Pass, ...]:
        """Return the passes that hold, devices first, the latest first."""
        now = self._clock()
        with self._lock:
            found = [one for one in self._kept.values() if _is_on(one, now)]
        return tuple(sorted(found, key=lambda one: (one.invitation, -one.made)))

    def rename(self, number: str, name: str) -> None:
        """Call a device something else; nothing happens where there is none."""
        with self._lock:
            for digest, one in self._kept.items():
                if one.id == number:
                    self._kept[digest] = evolve(one, name=_named(name))
            self._keep()

    def revoke(self, number: str) -> None:
        """End one pass, at once, and the invitation it was got with; nothing where there is none.

        The address that let a lost phone in is still on it, and would let it in again.
        """
        with self._lock:
            ended = {number, *(one.by for one in self._kept.values() if one.id == number)}
            self._kept = {d: one for d, one in self._kept.items() if one.id not in ended}
            self._keep()

    def revoke_all(self) -> None:
        """End all passes and invitations, at once."""
        with self._lock:
            self._kept = {}
            self._keep()

    def _find(self, token: str) -> Pass | None:
        if not token or len(token) > 2 * _BYTES or not token.isascii():
            return None
        # The digest is looked up, not the token compared: the time taken tells nothing.
        found = self._kept.get(_digest(token))
        return found if found is not None and _is_on(found, self._clock()) else None

    def _add(
        self, name: str, rights: Rights, until: float, *, by: str = "", secure: bool = False
    ) -> tuple[Pass, str]:
        token = secrets.token_urlsafe(_BYTES)
        now = self._clock()
        made = Pass(
            id=secrets.token_hex(8),
            name=name,
            rights=rights,
            digest=_digest(token),
            made=now,
            until=until,
            invitation=not by,
            by=by,
            secure=secure,
        )
        with self._lock:
            self._kept = {d: one for d, one in self._kept.items() if now < one.until}
            if len(self._kept) >= MOST_PASSES:
                raise InputError(
                    "devices", f"there are {MOST_PASSES} devices and invitations already",
                    "take some away on the page Sharing first",
                )  # fmt: skip
            self._kept[made.digest] = made
            self._keep()
        return made, token

    def _keep(self) -> None:
        kept = [
            {
                "id": one.id, "name": one.name, "rights": one.rights, "digest": one.digest,
                "made": one.made, "until": one.until, "seen": one.seen,
                "invitation": one.invitation, "by": one.by, "secure": one.secure,
            }
            for one in self._kept.values()
        ]  # fmt: skip
        self._store.set_setting(PASSES, json.dumps(kept))


def _is_on(kept: Pass, now: float) -> bool:
    """Whether a pass is not over.

    A clock that was set back must not give it a second life, so it holds from its making on; a
    little before, since clocks are put right.
    """
    return kept.made - _PUT_RIGHT <= now < kept.until


def _digest(token: str) -> str:
    return sha256(token.encode()).hexdigest()


def _named(name: str) -> str:
    plain = " ".join(name.split())[:LONGEST_NAME]
    return plain if plain.isprintable() and plain else "device"


def _read(text: str) -> list[Pass]:
    """Read what was kept; what cannot be read lets nobody in."""
    try:
        listed = json.loads(text)
    except (ValueError, RecursionError):
        return []
    found = []
    for one in listed if isinstance(listed, list) else []:
        try:
            found.append(
                Pass(
                    id=str(one["id"]),
                    name=_named(str(one["name"])),
                    # Whatever is not plainly allowed to work may only look.
                    rights="work" if one["rights"] == "work" else "look",
                    digest=str(one["digest"]),
                    made=float(one["made"]),
                    until=float(one["until"]),
                    seen=float(one["seen"]),
                    invitation=bool(one["invitation"]),
                    by=str(one["by"]),
                    secure=one["secure"] is True,
                )
            )
        except (KeyError, TypeError, ValueError):
            continue
    return found
