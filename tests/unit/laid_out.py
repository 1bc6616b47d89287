"""What could not be laid out, in words."""

from __future__ import annotations

from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.shop.member_names import Member, MemberName
from strapwright.wording.reader import in_units
from strapwright.wording.telling import tell


def lacking(pieces: Pieces) -> dict[MemberName, str]:
    """Member -> why it cannot be laid out, and what to do."""
    said: dict[MemberName, str] = {}
    for one in pieces.findings:
        if one.code == "not-laid-out":
            name = one.one(Member, "member").name
            told = tell(one, in_units("inch")).sentence
            said[name] = f"{said[name]} {told}" if name in said else told
    return said
