"""Whether an arc may touch the steels that a weld joins: refused, warned of, or told in passing."""

from __future__ import annotations

from strapwright.catalog.steels import Steel, find_steel
from strapwright.catalog.welding import (
    HARD_EQUIVALENT,
    LITTLE_CARBON,
    LITTLE_EQUIVALENT,
    Weldability,
    weldability,
)
from strapwright.findings import (
    Choice,
    Fact,
    Finding,
    KeyAt,
    Name,
    Severity,
    Share,
    Temperature,
)
from strapwright.shop.members import Members, Weld

# Whether a low and a high temperature are stated -> what is told of them.
_ENDS = {
    (False, False): "none",
    (False, True): "one",
    (True, False): "and more",
    (True, True): "between",
}


def weld_findings(members: Members) -> list[Finding]:
    """Refuse an arc on hardened shafting, with a way round it; warn of what cracks when cold."""
    findings = []
    for number, weld in enumerate(members.weld, start=1):
        where = f"tooling.members.weld[{number}]"
        for name in _welded(members, weld):
            steel = find_steel(name, where)
            if steel.hardened:
                findings.append(_hardened(weld, steel, where))
                continue
            known = weldability(steel)
            finding = _cold(weld, steel, known, where)
            if finding is not None:
                findings.append(finding)
    return findings


def _hardened(weld: Weld, steel: Steel, where: str) -> Finding:
    return Finding(
        code="weld-on-hardened-shaft",
        severity=Severity.REFUSAL,
        about=(KeyAt(where),),
        facts={"holds": Name(weld.holds), "steel": Name(steel.name)},
    )


def _cold(weld: Weld, steel: Steel, known: Weldability, where: str) -> Finding | None:
    """What to say of a weld laid on cold steel, or ``None`` where that is usual."""
    equal = known.equivalent
    hard = steel.carbon > LITTLE_CARBON or (equal is not None and equal >= HARD_EQUIVALENT)
    if not hard and (equal is None or equal <= LITTLE_EQUIVALENT):
        return None
    facts: dict[str, Fact | tuple[Fact, ...]] = {
        "holds": Name(weld.holds),
        "steel": Name(steel.name),
        "carbon": Share(steel.carbon / 100.0),
        "preheat": tuple(Temperature(one) for one in (known.low, known.high) if one is not None),
        "preheat_ends": Choice(_ENDS[known.low is not None, known.high is not None]),
    }
    if equal is not None:
        facts["equivalent"] = Share(equal / 100.0)
        facts["source"] = Name(known.source)
        facts["grade"] = Name(known.grade)
    if not hard:
        return Finding(
            code="weld-may-need-preheat",
            severity=Severity.NOTE,
            about=(KeyAt(where),),
            facts=facts,
        )
    return Finding(
        code="weld-needs-preheat",
        severity=Severity.WARNING,
        about=(KeyAt(where),),
        facts=facts,
    )


def _welded(members: Members, weld: Weld) -> tuple[str, ...]:
    """Steels that an arc of this weld meets."""
    web = None if members.nose is None else members.nose.web_material
    stated = {
        "shoulders": (members.shoulders, members.body),
        "cheeks": (members.body,),
        "carriers": (members.carriers, members.push_plate),
        "push plate": (members.push_plate,),
        "nose": (members.nose,),
        "web": (members.push_plate,) if web else (members.push_plate, members.nose),
        "side plates": (members.body,),
        "base": (members.body,),
    }[weld.holds]
    names = [one.material for one in stated if one is not None]
    if web and weld.holds in {"nose", "web"}:
        names.append(web)
    return tuple(dict.fromkeys(names))
