"""Words for how the members of the tooling carry their loads, and for welds on them."""

from __future__ import annotations

import math
from collections.abc import Mapping

from strapwright.findings import Angle, Choice, Finding, Force, Name, Share, Temperature
from strapwright.shop.member_names import BOLTS, WELDS, Member, MemberName
from strapwright.strength.hand_figures import shown
from strapwright.wording.reader import Reader
from strapwright.wording.words import Teller, Words

MEMBER_NAMES: Mapping[MemberName, str] = {
    "every member": "every member",
    "nose": "nose",
    "carriers": "carriers",
    "carrier pins": "carrier pins",
    "push plate": "push plate",
    "shoulders": "shoulders",
    "die body": "die body",
    "guide rods": "guide rods",
    "coupling": "coupling",
    "coupling pin": "coupling pin",
    "piston rod": "piston rod",
    "frame": "frame",
    "hose": "hose",
    "fitting": "fitting",
    "valve": "valve",
    "cylinder": "cylinder",
    "rod side": "rod side",
    "gauge": "gauge",
    "circuit": "circuit",
    **{WELDS[holds]: f"weld of the {holds}" for holds in WELDS},
    **{BOLTS[holds]: f"bolts of the {holds}" for holds in BOLTS},
}
FAR = 100.0  # a ratio that is no figure any more


def member_name(member: MemberName) -> str:
    """Name a member in the middle of a sentence.

    Parameters
    ----------
    member
        By its code.
    """
    return MEMBER_NAMES[member]


def _too_weak(finding: Finding, _: Reader) -> Words:
    ratio = finding.one(Share, "ratio").value
    share = f"{100 * ratio:.0f} %" if ratio < FAR else "many times"
    member = member_name(finding.one(Member, "member").name)
    what, case = (finding.one(Name, n).value for n in ("what", "load_case"))
    if "drawn" in finding.facts:
        return Words(
            f"{member.capitalize()}, {what}, {case}: as drawn it is loaded to {share} of what is "
            "allowed.",
            "Fix it as the check of the tooling says, or set the relief valve lower.",
        )
    return Words(
        f"{member.capitalize()}, {what}, {case}: loaded to {share} of the limit.",
        "Change it as shown, or lower the relief setting.",
    )


def _differs(finding: Finding, reader: Reader) -> Words:
    angle = reader.figures.angle(finding.one(Angle, "angle").value)
    return Words(
        f"The nose sags under the bar: the bend differs by {angle} along it.",
        "Bring the carriers closer together, or use a thicker nose.",
    )


def _unchecked(finding: Finding, _: Reader) -> Words:
    if "drawn" in finding.facts:
        return Words(
            f"As drawn, these are not checked: {_listed(finding, 'members')}.",
            "Enter what the check of the tooling lists as missing.",
        )
    return Words(
        f"These could not be checked: {_listed(finding, 'members')}.",
        "Enter what is listed as missing.",
    )


def _listed(finding: Finding, name: str) -> str:
    return ", ".join(member_name(one.name) for one in finding.several(Member, name))


def _shatters(_: Finding, __: Reader) -> Words:
    return Words(
        "A hardened shaft can shatter if it is bent or struck; only its core is counted here.",
        "Back it along its length, keep a shield in front of it and never strike it.",
    )


def _not_held(_: Finding, __: Reader) -> Words:
    return Words(
        "Nothing holds the load when the pump stops: the ram drifts and a loaded bar can spring "
        "back.",
        "Keep hands out until the ram rests on its stop, or fit a pilot-operated check valve.",
    )


def _good_to(finding: Finding, reader: Reader) -> str:
    member = member_name(finding.one(Member, "member").name)
    what, case = (finding.one(Name, n).value for n in ("what", "load_case"))
    force = shown(finding.one(Force, "good_to").value, "N", reader.figures.units)
    return f"{force}, limited by the {member} ({what}, {case})"


def _below_plan(finding: Finding, reader: Reader) -> Words:
    pushed = shown(finding.one(Force, "pushed").value, "N", reader.figures.units)
    return Words(
        f"The tooling is rated to {_good_to(finding, reader)}. This part needs up to {pushed}.",
        "Fix its weakest member as strapwright tooling check shows, or use a wider opening.",
    )


def _below_relief(finding: Finding, reader: Reader) -> Words:
    pushed = shown(finding.one(Force, "pushed").value, "N", reader.figures.units)
    return Words(
        f"The tooling is rated to {_good_to(finding, reader)}. At the relief setting the ram "
        f"pushes with {pushed}.",
        "Fix it, or lower the relief setting to what strapwright tooling check shows.",
    )


_LISTED = "Enter what strapwright tooling check lists as missing."


def _rating(finding: Finding, reader: Reader) -> Words:
    blind = _listed(finding, "not_checked")
    if "good_to" not in finding.facts:
        return Words(
            f"Members are entered but none could be checked, so they limit nothing: {blind}.",
            _LISTED,
        )
    beside = ""
    if "stated" in finding.facts:
        stated = shown(finding.one(Force, "stated").value, "N", reader.figures.units)
        beside = f" You entered {stated}."
    gaps = f" Not checked: {blind}." if blind else ""
    return Words(
        f"Rated from the members entered: {_good_to(finding, reader)}. Gauge and relief figures "
        f"stay below that.{beside}{gaps}",
        _LISTED if blind else "",
    )


def _hardened(finding: Finding, _: Reader) -> Words:
    return Words(
        f"The weld of the {finding.one(Name, 'holds').value} is on "
        f"{finding.one(Name, 'steel').value}. Welding makes the hardened skin brittle and leaves a "
        "soft ring beside it; both crack under load.",
        "Do not weld it. Use a split clamp or bolted saddle, a set screw on a flat, or a bolted "
        "keeper at each end.",
    )


def _is_on(finding: Finding) -> str:
    text = (
        f"The weld of the {finding.one(Name, 'holds').value} is on "
        f"{finding.one(Name, 'steel').value} with up to "
        f"{100.0 * finding.one(Share, 'carbon').value:.2f} % carbon"
    )
    if "equivalent" in finding.facts:
        text += (
            " and a carbon equivalent of about "
            f"{100.0 * finding.one(Share, 'equivalent').value:.2f} "
            f"({finding.one(Name, 'source').value}, {finding.one(Name, 'grade').value})"
        )
    return text


def _may_preheat(finding: Finding, _: Reader) -> Words:
    return Words(
        f"{_is_on(finding)}. Thin pieces weld cold. For thick ones published preheat lists say "
        f"{_preheat(finding)}; that is guidance, not a welding procedure.",
        "Weld thick pieces by a qualified procedure, with dry low-hydrogen rods.",
    )


def _needs_preheat(finding: Finding, _: Reader) -> Words:
    return Words(
        f"{_is_on(finding)}. It can crack beside a weld made cold. Published preheat lists say "
        f"{_preheat(finding)}; that is guidance, not a welding procedure.",
        "Weld by a qualified procedure, or clamp or bolt it instead.",
    )


def _preheat(finding: Finding) -> str:
    """Say to which temperatures the lists preheat: ``200 to 800 °F (100 to 430 °C)``.

    In degrees Celsius never lower than the lists.
    """
    ends = [one.value for one in finding.several(Temperature, "preheat")]
    if not ends:
        return "none"
    fahrenheit = " to ".join(f"{one:.0f}" for one in ends)
    celsius = " to ".join(f"{10 * math.ceil((one - 32) / 18):.0f}" for one in ends)
    more = " and more" if finding.one(Choice, "preheat_ends").value == "and more" else ""
    return f"{fahrenheit} °F ({celsius} °C){more}"


MEMBER_WORDS: Mapping[str, Teller] = {
    "member-too-weak": _too_weak,
    "bend-differs-along-bar": _differs,
    "member-unchecked": _unchecked,
    "brittle-shaft": _shatters,
    "load-not-held": _not_held,
    "die-rating": _rating,
    "die-below-plan": _below_plan,
    "die-below-relief": _below_relief,
    "weld-on-hardened-shaft": _hardened,
    "weld-may-need-preheat": _may_preheat,
    "weld-needs-preheat": _needs_preheat,
}
