"""The tooling that a choice of stock makes, with its members, for every way of holding."""

from __future__ import annotations

from collections.abc import Sequence

from strapwright.catalog.thread_sizes import find_thread
from strapwright.making.bolt_layout import EDGE, TAPPED
from strapwright.making.shop_lengths import round_up
from strapwright.making.tied_plates import below_seat
from strapwright.proposing.candidate_sizes import (
    SIDE_GRADE,
    THICKEST_FLOOR,
    Layout,
    Need,
    below_nose,
    kept_plate,
    layout_of,
    side_bolt,
)
from strapwright.proposing.proposal_values import BoltsReady, Choice
from strapwright.shop.job import Job
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.members import (
    OFF_CENTRE,
    SIDE_LOAD,
    Bolt,
    Carriers,
    DieBody,
    Guides,
    Members,
    NoseMember,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.on_kept_plates import members_on
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.strength.welds import least_leg


def tooling_of(choice: Choice, need: Need, jobs: Sequence[Job]) -> Tooling:
    """Return the tooling that a choice makes.

    Parameters
    ----------
    choice, need
        Stock and sizes.
    jobs
        The parts; ram side, friction and the press's own members are the first's.
    """
    layout = layout_of(choice, need, jobs)
    base = jobs[0].tooling
    stated = None if base is None else base.members
    radius, shoulder = choice.nose.thickness / 2, choice.radius
    plate, body = choice.push_plate, choice.body
    web = choice.carriers.thickness if choice.held == "web" else None
    there = kept_plate(jobs) if choice.kept else None
    over = need.plate_width if there is None else there.width
    members = Members(
        off_centre=OFF_CENTRE if stated is None else stated.off_centre,
        side_load=SIDE_LOAD if stated is None else stated.side_load,
        bends_a_year=None if stated is None else stated.bends_a_year,
        nose=_nose(choice, layout),
        carriers=None if choice.held == "web" else _carriers(choice, need, layout, jobs),
        push_plate=PushPlate(
            material=plate.material,
            thickness=plate.thickness,
            width=over,
            length=None if there is None else there.length,
        ),
        # Each shaft lies in a half-round seat cut into its cheek, or each block on its base.
        shoulders=ShoulderMember(
            material=choice.shoulders.material, kind="block", seat_material=body.material
        ),
        body=_body(choice, layout),
        # Bolts hold the carriers under a plate that stays; its holes say which.
        weld=(*(() if choice.kept else _nose_welds(choice, layout)), *_body_welds(choice, layout)),
        # What holds the plate to the ram is the press's own, as what follows.
        bolt=(
            *(() if stated is None else (b for b in stated.bolt if b.holds == "push plate")),
            *_side_bolts(choice, layout, jobs),
        ),
        guides=_guides(stated, there),
        coupling=None if stated is None else stated.coupling,
        rod=None if stated is None else stated.rod,
        frame=None if stated is None else stated.frame,
        circuit=None if stated is None else stated.circuit,
    )
    return Tooling(
        nose=Nose(
            radius=radius,
            reach=need.reach,
            span=layout.span,
            held=choice.held,
            web_thickness=web,
            web_height=None if web is None else need.reach - 2 * radius,
        ),
        shoulders=Shoulders(
            radius=shoulder,
            opening=choice.opening,
            depth=need.depth if choice.tied else layout.tall,
            height=need.height if choice.tied else max(need.height, layout.tall + THICKEST_FLOOR),
            # The cheek stands outside the shoulder; taken as high as its top, on the safe side.
            outer_edge=choice.opening / 2 - shoulder + choice.shoulders.thickness
            if choice.edge
            else choice.opening / 2 + shoulder + body.thickness,
        ),
        friction=0.1 if base is None else base.friction,
        touch_error=0.3 if base is None else base.touch_error,
        plate_width=over,
        plate_thickness=plate.thickness,
        plate_length=None if there is None else there.length,
        members=members,
    )


def _guides(stated: Members | None, there: KeptPlate | None) -> Guides | None:
    if stated is None or there is None:
        return None if stated is None else stated.guides
    return members_on(stated, there).guides


def _nose(choice: Choice, layout: Layout) -> NoseMember:
    material = choice.nose.material
    if choice.held == "web":
        return NoseMember(material=material, web_material=choice.carriers.material)
    if choice.held == "one end":
        # From the carrier to the farther edge of a bar in the middle of the gap.
        return NoseMember(material=material, between=(layout.span + layout.width) / 2)
    return NoseMember(material=material, between=layout.span + choice.carriers.thickness)


def _carriers(choice: Choice, need: Need, layout: Layout, jobs: Sequence[Job]) -> Carriers:
    return Carriers(
        material=choice.carriers.material,
        thickness=choice.carriers.thickness,
        width=layout.carrier,
        height=need.reach - choice.nose.thickness,
        below=below_nose(choice.nose.thickness, jobs[0].units),
    )


def _body(choice: Choice, layout: Layout) -> DieBody:
    body = choice.body
    if choice.edge:
        return DieBody(
            material=body.material,
            floor=body.thickness,
            length=layout.length,
            height=layout.tall,
            tall=layout.tall,
        )
    if choice.tied:
        return DieBody(
            material=body.material,
            cheek=body.thickness,
            length=layout.length,
            # What pushes a round goes through its middle.
            height=layout.tall - choice.radius,
            side_plate=body.thickness,
            between=layout.between,
            tall=layout.tall,
        )
    return DieBody(
        material=body.material,
        cheek=body.thickness,
        floor=body.thickness,
        length=layout.length,
        height=layout.tall,
    )


def _nose_welds(choice: Choice, layout: Layout) -> tuple[Weld, ...]:
    """Both sides of each carrier, or of the web along push plate and nose."""
    carrier, plate = choice.carriers.thickness, choice.push_plate.thickness
    joint = min(carrier, plate)
    if choice.held == "web":
        return (
            Weld(
                holds="web",
                size=min(carrier, least_leg(joint)),
                length=2 * layout.span,
                thinner=joint,
                spacing=carrier,
            ),
            Weld(
                holds="nose",
                size=min(carrier, least_leg(carrier)),
                length=2 * layout.span,
                thinner=carrier,
                spacing=carrier,
            ),
        )
    alone = choice.held == "one end"
    return (
        Weld(
            holds="carriers",
            size=min(carrier, least_leg(joint) * (2 if alone else 1)),
            length=2 * layout.carrier,
            thinner=joint,
            spacing=carrier if alone else None,
        ),
    )


def _body_welds(choice: Choice, layout: Layout) -> tuple[Weld, ...]:
    thick = choice.shoulders.thickness if choice.edge else choice.body.thickness
    if choice.tied:
        return ()
    return (
        Weld(
            holds="shoulders" if choice.edge else "cheeks",
            size=layout.leg,
            length=2 * layout.length,
            thinner=min(thick, choice.body.thickness),
            spacing=thick,
            height=layout.tall,
        ),
    )


def _side_bolts(choice: Choice, layout: Layout, jobs: Sequence[Job]) -> tuple[Bolt, ...]:
    units, thick = jobs[0].units, choice.body.thickness
    name = side_bolt(thick, units) if choice.tied else None
    if name is None:
        return ()
    major = find_thread(name, "bolt").major
    upper = layout.tall - below_seat(choice.radius, thick, major)
    return (
        Bolt(
            holds="side plates",
            size=name,
            grade=SIDE_GRADE[units],
            count=2,
            length=round_up(thick + TAPPED * major, units),
            grip=thick,
            into=choice.body.material,
            spacing=upper - EDGE * major,
            height=layout.tall - choice.radius - (upper + EDGE * major) / 2,
        ),
    )


def bolts_to_lay_ready(members: Members) -> tuple[BoltsReady, ...]:
    """Return the bolts of a proposed tooling.

    Parameters
    ----------
    members
        Of it; what holds the push plate is the press's own.
    """
    return tuple(
        BoltsReady(count=4 * bolt.count, size=bolt.size, grade=bolt.grade)
        for bolt in members.bolt
        if bolt.holds == "side plates"
    )
