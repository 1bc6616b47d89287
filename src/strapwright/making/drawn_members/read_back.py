"""The members of a tooling read back from its drawings, so that what is drawn is what is checked.

Sizes are those of the plates and holes as drawn; what a drawing does not show, such as a steel or
the leg of a weld, stays as stated.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import attrs
from attrs import evolve

from strapwright.findings import Finding, KeyAt, Length, Name, Severity
from strapwright.making.bolt_layout import GRADE
from strapwright.making.drawn_members.laying_out import Reach
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_values import PlateDrawing
from strapwright.shop.member_names import BOLTS, Member, MemberName
from strapwright.shop.members import (
    SINGLE,
    Bolt,
    Carriers,
    DieBody,
    Holds,
    Members,
    NoseMember,
    PushPlate,
    ShoulderMember,
)
from strapwright.shop.tooling import Shoulders, Tooling

# Millimetres by which a size drawn may differ from the one stated before it is said; sizes are
# stated to a thousandth of an inch, and some are rounded to how stock is cut (numerical).
SAME = 0.1
# The drawing that shows the threads of each group of bolts.
_THREADS: Mapping[str, Holds] = {
    "nose carrier, upper edge": "carriers",
    "nose web, upper edge": "web",
    "shoulder block, lower edge": "shoulders",
    "cheek, lower edge": "cheeks",
    "cheek, each end": "side plates",
}
_NAMES: Mapping[str, MemberName] = {
    "nose": "nose",
    "carriers": "carriers",
    "push_plate": "push plate",
    "body": "die body",
}
_ROW = 1e-3  # mm, numerical: holes in one row


def read_back(
    tooling: Tooling,
    nose: NoseLayout | None,
    plates: Sequence[PlateDrawing],
    reaches: Mapping[Holds, Reach],
) -> Tooling:
    """Return a tooling with its members as the drawings have them.

    Parameters
    ----------
    tooling
        As stated.
    nose
        Sizes about the nose, ``None`` where they were not laid out.
    plates
        Every drawing.
    reaches
        Length and grip of the bolts drawn, which no plate shows.
    """
    shown = {one.name: one for one in plates}
    members = tooling.members or Members()
    changes: dict[str, Any] = {}
    push, carrier = shown.get("push plate"), shown.get("nose carrier")
    if push is not None:
        changes["push_plate"] = evolve(
            members.push_plate or PushPlate(), thickness=push.thickness, width=push.height
        )
    if nose is not None and nose.count == 2:
        changes["nose"] = evolve(members.nose or NoseMember(), between=nose.span + nose.carrier)
    if carrier is not None and carrier.holes:
        bore = carrier.holes[0]
        changes["carriers"] = evolve(
            members.carriers or Carriers(), thickness=carrier.thickness, width=carrier.width,
            height=carrier.height - bore.y - bore.diameter / 2,
        )  # fmt: skip
    body = _body(members, shown)
    if body is not None:
        changes["body"] = body
    if "shoulder block" in shown and members.shoulders is None:
        changes["shoulders"] = ShoulderMember(kind="block")
    changes["bolt"] = _bolts(tooling, members, shown, reaches)
    return evolve(
        tooling,
        nose=_nose(tooling, nose),
        shoulders=_shoulders(
            tooling.shoulders,
            shown.get("shoulder block"),
            shown["die base"].thickness if "die base" in shown else 0.0,
        ),
        plate_width=tooling.plate_width if push is None else push.height,
        plate_thickness=tooling.plate_thickness if push is None else push.thickness,
        members=evolve(members, **changes),
    )


def _shoulders(stated: Shoulders, block: PlateDrawing | None, floor: float) -> Shoulders:
    """Shoulders with the height and the thickness of their blocks, on a base ``floor`` mm thick."""
    if block is None:
        return stated
    edge = stated.opening / 2 - stated.radius + block.thickness
    return evolve(
        stated,
        height=block.height + floor if stated.height is None else stated.height,
        outer_edge=edge if stated.outer_edge is None else stated.outer_edge,
    )


def _nose(tooling: Tooling, nose: NoseLayout | None) -> Any:
    if nose is None:
        return tooling.nose
    return evolve(tooling.nose, span=nose.span, reach=nose.centre + nose.shaft / 2)


def _body(members: Members, shown: Mapping[str, PlateDrawing]) -> DieBody | None:
    """Cheeks, floor and side plates, or what blocks stand on; ``None`` where none are drawn."""
    cheek, side = shown.get("cheek"), shown.get("side plate")
    floor = shown.get("floor")
    stated = members.body or DieBody()
    block, base = shown.get("shoulder block"), shown.get("die base")
    if block is not None and base is not None:
        return evolve(
            stated, floor=base.thickness, length=block.width, tall=block.height,
            # The bar can press as high as the block is tall.
            height=block.height if stated.height is None else stated.height,
        )  # fmt: skip
    if cheek is None:
        return None
    drawn = evolve(stated, cheek=cheek.thickness, length=cheek.width, tall=cheek.height)
    if floor is not None:
        drawn = evolve(drawn, floor=floor.thickness, length=min(cheek.width, floor.height))
    if side is not None:
        drawn = evolve(
            drawn, side_plate=side.thickness, between=cheek.width + side.thickness
        )  # fmt: skip
    if drawn.height is None:
        # The bar can press as high as the top of the round, level with the cheek's.
        drawn = evolve(drawn, height=cheek.height)
    return drawn


def _bolts(
    tooling: Tooling,
    members: Members,
    shown: Mapping[str, PlateDrawing],
    reaches: Mapping[Holds, Reach],
) -> tuple[Bolt, ...]:
    """Bolts as stated, each with count, size and rows of its threads as drawn; then the others."""
    found = {
        holds: _bolt(tooling, holds, shown[name], reaches[holds])
        for name, holds in _THREADS.items()
        if name in shown
        and holds in reaches
        # Between carriers a web hangs on its bolts with its own weight alone.
        and (holds != "web" or tooling.nose.held == "web")
    }
    stated = tuple(found.pop(one.holds, one) for one in members.bolt)
    return (*stated, *found.values())


def _bolt(tooling: Tooling, holds: Holds, edge: PlateDrawing, reach: Reach) -> Bolt:
    members = tooling.members or Members()
    known = next((one for one in members.bolt if one.holds == holds), None)
    into = {
        "carriers": None if members.carriers is None else members.carriers.material,
        "shoulders": None if members.shoulders is None else members.shoulders.material,
        "cheeks": None if members.body is None else members.body.material,
    }.get(holds)
    thread = edge.holes[0].thread
    metric = thread.startswith("M")
    bolt = known or Bolt(holds=holds, size=thread, grade=GRADE["metric" if metric else "inch"])
    if known is None and into is not None:
        bolt = evolve(bolt, into=into)
    height = bolt.height
    if height is None and holds in {"cheeks", "shoulders"}:
        height = edge.thickness
    # Two carriers are tipped along their one row of bolts, all else across its rows.
    along = holds == "carriers" and tooling.nose.held == "both ends"
    rows = _rows([hole.x if along else hole.y for hole in edge.holes])
    apart = rows[-1] - rows[0] if len(rows) > 1 else None
    return evolve(
        bolt, size=thread, count=len(edge.holes), spacing=apart, height=height,
        length=reach.length, grip=reach.grip,
    )  # fmt: skip


def _rows(places: Sequence[float]) -> tuple[float, ...]:
    """Places of the rows of some holes [mm], each once."""
    found: list[float] = []
    for place in sorted(places):
        if not found or place - found[-1] > _ROW:
            found.append(place)
    return tuple(found)


def differences(stated: Tooling, drawn: Tooling) -> list[Finding]:
    """Return what is found where a size is stated and drawn otherwise.

    Parameters
    ----------
    stated, drawn
        The same tooling, before and after.
    """
    before, after = stated.members, drawn.members
    if before is None or after is None:
        return []
    found: list[Finding] = []
    for key in SINGLE:
        if key in _NAMES and getattr(before, key) is not None:
            pair = getattr(before, key), getattr(after, key)
            found += _differ(*pair, _NAMES[key], f"tooling.members.{key}")
    for number, (one, other) in enumerate(zip(before.bolt, after.bolt, strict=False), start=1):
        found += _differ(one, other, BOLTS[one.holds], f"tooling.members.bolt[{number}]")
    return found


def _differ(one: Any, other: Any, member: MemberName, where: str) -> list[Finding]:
    found = []
    for key in attrs.fields_dict(type(one)):
        was, is_now = getattr(one, key), getattr(other, key)
        if not isinstance(was, float) or not isinstance(is_now, float | None):
            continue
        if is_now is not None and abs(was - is_now) <= SAME:
            continue
        facts: dict[str, Any] = {
            "member": Member(member), "size": Name(key.replace("_", " ")), "stated": Length(was),
        }  # fmt: skip
        if is_now is not None:
            facts["drawn"] = Length(is_now)
        path = f"{where}.{key}"
        found.append(
            Finding(
                code="drawn-otherwise",
                severity=Severity.WARNING,
                about=(KeyAt(path),),
                facts=facts,
            )
        )
    return found
