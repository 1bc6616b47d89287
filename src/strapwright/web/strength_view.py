"""What the templates about strength are given."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import frozen

from strapwright.errors import InputError, StrapwrightError
from strapwright.pages.edited_job import Desk
from strapwright.pages.fields.form_fields import Field
from strapwright.pages.page_statements import failed, refused
from strapwright.pages.strength_page import check_text, strength
from strapwright.pages.workshop import Workshop
from strapwright.strength.check_values import ESTIMATE
from strapwright.web.rendering import piece

_HARD = "Never weld hardened shafting: its case cracks beside the weld. Clamp or bolt it."
_CAUTIONS = {
    "Frame and load": (
        "An off-centre bar loads everything more: fit stops that keep it in the middle."
    ),
    "Nose (punch)": (
        "A hardened shaft can shatter if it is bent or struck: keep a shield in front of it."
    ),
    "Hoses, valve and gauge": (
        "A pinhole leak can inject oil through the skin: check with a piece of cardboard, never "
        "your hand. If oil gets under the skin, go to hospital at once, even if it looks small."
    ),
}


@frozen(kw_only=True)
class Group:
    """One member among the fields."""

    name: str
    fields: tuple[Field, ...]
    stated: str
    opened: bool
    caution: str
    drop: str


def strength_values(shop: Workshop, desk: Desk) -> dict[str, Any]:
    """Numbers, findings and what fixes, for what was typed."""
    found, refusal = None, None
    if desk.trouble is None:
        try:
            checked = check_text(shop, desk.text)
            found = strength(checked, checked.plan)
        except InputError as error:
            refusal = refused(error)
        except StrapwrightError as error:
            refusal = failed(error)
    elif not any(note.wrong for note in desk.notes.values()):
        refusal = refused(desk.trouble)
    return {
        "strength": found,
        "refusal": refusal,
        "estimate": ESTIMATE,
        "root": f"/jobs/{desk.opened.item.id}",
        "desk": desk,
    }


def strength_pieces(shop: Workshop, desk: Desk) -> dict[str, str]:
    """Render what follows from what was typed."""
    values = strength_values(shop, desk)
    return {
        "numbers": piece("strength_numbers.html", **values),
        "findings": piece("strength_findings.html", **values),
        "elsewhere": piece("elsewhere.html", desk=desk),
    }


def groups(desk: Desk) -> tuple[Group, ...]:
    """Return the fields member by member; a member with something wrong stands open."""
    by_name: dict[str, list[Field]] = {}
    for field in desk.form.fields:
        by_name.setdefault(field.group, []).append(field)
    return tuple(
        Group(
            name=name,
            fields=tuple(fields),
            stated=_stated(fields, desk.form.values),
            opened=any(desk.notes[field.name].wrong for field in fields),
            caution=_HARD if name.startswith("Weld") else _CAUTIONS.get(name, ""),
            drop=f"drop-{name.lower().replace(' ', ':')}"
            if name.startswith(("Weld", "Bolt"))
            else "",
        )
        for name, fields in by_name.items()
    )


def _stated(fields: list[Field], values: Mapping[str, str]) -> str:
    """Name what is stated of a member in one line, each figure with what it is."""
    said = [values.get(field.name, "").strip() for field in fields]
    sizes = [
        f"{field.label[:1].lower()}{field.label[1:]} {text}"
        for text, field in zip(said, fields, strict=True)
        if text and not field.choices
    ]
    words = [text for text, field in zip(said, fields, strict=True) if text and field.choices]
    words = [word for word in words if word not in ("yes", "no")]
    return ", ".join([*words[:1], *sizes[:3]])
