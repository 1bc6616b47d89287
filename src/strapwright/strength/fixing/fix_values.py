"""What a fix changes on a tooling: the keys, from what to what, and a stable key of its own."""

from __future__ import annotations

from attrs import frozen

from strapwright.findings import Choice, Count, Fact, Length, Name, Yes
from strapwright.shop.member_names import MemberName
from strapwright.shop.members import Holds
from strapwright.shop.tooling import Tooling


@frozen(kw_only=True)
class KeyChange:
    """One change, of one key or of several to the same size.

    Attributes
    ----------
    table, names
        Whose keys they are, ``tooling.members.body``, and the keys, ``cheek``.
    to
        What they are changed to; a piece of text that picks one of several is a choice.
    now
        What each is, in the order of their names; empty where it does not matter.
    stock
        The piece of the rack that it is made from, as it is called there.
    number
        Of the changed weld or bolts among those stated, from 1.
    holds, thread
        What the changed weld or bolts hold, and the thread of the bolts.
    """

    table: str
    names: tuple[str, ...]
    to: Fact
    now: tuple[Fact, ...] = ()
    stock: str | None = None
    number: int | None = None
    holds: Holds | None = None
    thread: str | None = None

    @property
    def key(self) -> str:
        """The same for the same change, whatever words it is told in and in whatever units."""
        which = "" if self.number is None else f"[{self.number}]"
        made = "" if self.stock is None else f" of {self.stock}"
        return f"{self.table}{which}.{'+'.join(self.names)} = {_plain(self.to)}{made}"


@frozen(kw_only=True)
class Fix:
    """What makes a member hold.

    Attributes
    ----------
    member
        Which failed.
    changes
        What is changed, in the order in which it is told; none of them does alone.
    tooling
        With the changes made, and those of the fixes told before it.
    ratio
        The worst of the member's checks after it [-].
    alternative
        Whether it does in place of the other fixes, alone with what it changes.
    """

    member: MemberName
    changes: tuple[KeyChange, ...]
    tooling: Tooling
    ratio: float
    alternative: bool = False

    @property
    def key(self) -> str:
        """Which fix this is: the member, and what is changed to which size."""
        return "; ".join((self.member, *(one.key for one in self.changes)))


def _plain(fact: Fact) -> str:
    match fact:
        case Length(value=mm):
            return f"{mm:.4f} mm"
        case Count(value=number):
            return str(number)
        case Yes(value=so):
            return str(so).lower()
        case Name(value=text) | Choice(value=text):
            return text
    raise TypeError(f"no fix changes anything to {fact!r}")
