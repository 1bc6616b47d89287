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
from strapwright.findings import Finding, Severity, spoken
from strapwright.shop.members import Members, Weld


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
    return spoken(
        code="weld-on-hardened-shaft",
        severity=Severity.REFUSAL,
        where=where,
        text=f"The weld of the {weld.holds} lies on {steel.name}: the arc leaves untempered "
        "martensite in the hard case and a soft ring beside it, and both crack under load.",
        remedy="Hold it without an arc: a split clamp or saddle bolted down, a set screw on a "
        "flat, or a bolted keeper at each end.",
    )


def _cold(weld: Weld, steel: Steel, known: Weldability, where: str) -> Finding | None:
    """What to say of a weld laid on cold steel, or ``None`` where that is usual."""
    equal = known.equivalent
    hard = steel.carbon > LITTLE_CARBON or (equal is not None and equal >= HARD_EQUIVALENT)
    if not hard and (equal is None or equal <= LITTLE_EQUIVALENT):
        return None
    measure = f"up to {steel.carbon:.2f} % carbon"
    if equal is not None:
        measure += f" and a carbon equivalent of about {equal:.2f} ({known.source}, {known.grade})"
    if not hard:
        return spoken(
            code="weld-may-need-preheat",
            severity=Severity.NOTE,
            where=where,
            text=f"The weld of the {weld.holds} lies on {steel.name} with {measure}: thin pieces "
            f"weld cold; for thick ones lists of preheat say {preheat_words(known)}, as guidance.",
            remedy="Weld thick pieces by a qualified procedure, with dry low-hydrogen rods.",
        )
    return spoken(
        code="weld-needs-preheat",
        severity=Severity.WARNING,
        where=where,
        text=f"The weld of the {weld.holds} lies on {steel.name} with {measure}, which cracks "
        f"beside a cold weld; lists of preheat say {preheat_words(known)}, which is guidance and "
        "not a procedure.",
        remedy="Weld by a qualified procedure, or clamp or bolt it instead.",
    )


def preheat_words(known: Weldability) -> str:
    """Say between which temperatures the lists put the preheat: ``200 to 800 F (90 to 430 C)``.

    Parameters
    ----------
    known
        Of a steel.
    """
    low, high = known.low, known.high
    if low is None:
        return "none" if high is None else f"{high:.0f} F ({_celsius(high)} C)"
    if high is None:
        return f"{low:.0f} F ({_celsius(low)} C) and more"
    return f"{low:.0f} to {high:.0f} F ({_celsius(low)} to {_celsius(high)} C)"


def _celsius(fahrenheit: float) -> str:
    return f"{10 * round((fahrenheit - 32) / 18):.0f}"


def _welded(members: Members, weld: Weld) -> tuple[str, ...]:
    """Steels that an arc of this weld meets."""
    web = None if members.nose is None else members.nose.web_material
    stated = {
        "shoulders": (members.shoulders,),
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
