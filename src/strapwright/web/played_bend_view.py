"""Marks along the slider that plays bends, and the few pictures for pages without a script."""

from __future__ import annotations

from typing import Any

from attrs import frozen

from strapwright.pages.played_bend import Stage


@frozen(kw_only=True)
class Tick:
    """A word beside the slider at one of its places."""

    at: int
    word: str


@frozen(kw_only=True)
class Still:
    """One picture: where bar, its hatched edge, nose and shoulders stand, what is read and held."""

    bend: int
    bar: str
    edge: str
    part: str
    seen: float
    nose: float
    sunk: float
    held: bool
    turn: str
    doing: str


def ticks(stage: Stage) -> tuple[Tick, ...]:
    """Words along the slider: the parts of one bend, or where each bend begins."""
    acts = stage.data["acts"]
    if len(acts) > 1:
        found, at = [], 0
        for act in acts:
            found.append(Tick(at=at, word=f"bend\N{NO-BREAK SPACE}{act['bend']}"))
            at += act["count"]
        return (*found, Tick(at=at - 1, word="finished"))
    (act,) = acts
    found = [Tick(at=0, word="first contact"), Tick(at=act["stop"], word="full stroke")]
    if _hits(act) > 1:
        touches = act["touches"]
        found = [
            Tick(at=at, word=f"hit\N{NO-BREAK SPACE}{number}")
            for number, at in enumerate(touches, start=1)
            if number in (1, 1 + len(touches) // 2, len(touches))
        ]
    found.append(Tick(at=act["free"], word="released"))
    if act["count"] - 1 > act["free"]:
        found.append(Tick(at=act["count"] - 1, word="trapped" if act["locked"] else "clear"))
    return tuple(found)


def stills(stage: Stage) -> tuple[Still, ...]:
    """Pictures that tell a bend without a slider: touch, stroke, let go, on the way off, off."""
    found = []
    for act in stage.data["acts"]:
        one = len(stage.data["acts"]) == 1
        free, last = act["free"], act["count"] - 1
        chosen = [0, act["stop"], free, (free + last) // 2, last] if one else [act["stop"], last]
        if one and _hits(act) > 1:
            strokes = act["strokes"]
            chosen = [0, strokes[0], strokes[len(strokes) // 2], *chosen[1:]]
        found += [_still(act, at) for at in sorted(set(chosen))]
    return tuple(found)


def telling(stage: Stage) -> tuple[Still, ...]:
    """One picture a bend: full stroke, or the part that is locked on."""
    return tuple(
        _still(act, act["count"] - 1 if act["locked"] else act["stop"])
        for act in stage.data["acts"]
    )


def _hits(act: dict[str, Any]) -> int:
    return len(act["touches"])


def _still(act: dict[str, Any], at: int) -> Still:
    return Still(
        bend=act["bend"],
        bar=act["bar"][min(at, act["free"])],
        edge=act["edge"][min(at, act["free"])],
        part=act["part"][at],
        seen=act["seen"][at],
        nose=act["nose"][at],
        sunk=act["sunk"][at],
        held=act["locked"] and at > act["free"],
        turn=act["turn"][at],
        doing=act["doing"][at],
    )
