"""What stands beside the drawing of a bend: the turn, large, and under it travel and gauge."""

from __future__ import annotations

from attrs import frozen

from strapwright.drawing import drawn_figures
from strapwright.planning.plan_values import Plan, Step
from strapwright.scene.frame import Frame
from strapwright.scene.lettering import shorten, text_width, wrap
from strapwright.scene.placing import Row
from strapwright.scene.primitives import Point, Role, Text
from strapwright.wording.figures import figures_for
from strapwright.wording.steps import hold_words
from strapwright.wording.steps.gauge_words import no_gauge_words
from strapwright.wording.steps.step_words import NOT_PROMISED, nearest_words

_STATES = {"rest": "at rest", "stroke": "at full stroke", "released": "released"}


@frozen(kw_only=True)
class Facts:
    """Figures of one picture, as words.

    Attributes
    ----------
    turn, turn_word
        The one number that matters and what it is.
    lines
        Name and figure of what stands under it; a name alone is a sentence.
    hold
        How the bar is laid in.
    sentence
        All of it for people who hear the page.
    """

    bend: int
    state: str
    turn: str
    turn_word: str
    lines: tuple[tuple[str, str], ...]
    hold: str
    sentence: str


def facts_of(plan: Plan, step: Step, pose: str) -> Facts:
    """Gather what one picture says."""
    job = plan.job
    loaded = drawn_figures.banded_angle(job, step.loaded_angle, step.bands.loaded_angle)
    wanted = drawn_figures.stated_angle(step.wanted)
    turn, word = {
        "rest": (wanted, f"bend {step.bend}, to turn"),
        "stroke": (loaded, f"bend {step.bend}, under load"),
        "released": (
            drawn_figures.banded_angle(job, step.free_angle, step.bands.free_angle),
            f"bend {step.bend}, released",
        ),
    }[pose]
    if step.bottoms_first and pose != "rest":  # neither angle is promised
        turn = "\N{EN DASH}"
    lines = [("travel", drawn_figures.setting(job, step.setting.travel))]
    load = drawn_figures.banded_load(job, step)
    lines += [
        ("force" if step.gauge is None else "gauge", load.shown),
        ("range", load.between),
    ]
    if step.gauge is None:
        lines.append((f"gauge: {no_gauge_words(step.no_gauge)}", ""))
    if pose == "stroke":
        if not step.bottoms_first:
            lines.append(("released", wanted))
        clear = nearest_words(step, figures_for(job))
        if clear:
            lines.append((clear, ""))
    if pose == "released" and not step.bottoms_first:
        lines.append(("loaded", loaded))
    if step.bottoms_first and pose != "rest":
        lines.append((NOT_PROMISED, ""))
    hold = hold_words.laid(plan, step)
    told = ", ".join(f"{name} {figure}".strip() for name, figure in lines)
    return Facts(
        bend=step.bend,
        state=_STATES[pose],
        turn=turn,
        turn_word=word,
        lines=tuple(lines),
        hold=hold,
        sentence=f"{word.capitalize()}: {turn}; {told}; {hold}.",
    )


def turn_size(facts: Facts, frame: Frame, room: float) -> float:
    """Size of the turn: large, but no wider than ``room``, and never under 48 [px]."""
    size = frame.large * (1.15 if frame.narrow else 1.7)
    return max(48.0, size * min(1.0, room / text_width(facts.turn, size)))


def turn_rows(facts: Facts, frame: Frame, room: float) -> list[Row]:
    """Set the turn with what it is, no wider than ``room`` [px]."""
    rows: list[Row] = [(facts.turn, turn_size(facts, frame, room), "figure")]
    rows.extend((line, frame.body, "label") for line in wrap(facts.turn_word, frame.body, room))
    return rows


def fact_texts(
    facts: Facts, frame: Frame, at: Point, room: float, px: float, *, hold_first: bool
) -> list[Text]:
    """Set names and figures in two columns, then how the bar is held.

    Parameters
    ----------
    at
        Baseline of the first line [mm].
    room
        Width [px].
    px
        One pixel [mm].
    hold_first
        Whether the hold is what is looked for: it then comes first and in full weight.
    """
    x, y = at
    body, step = frame.body, frame.reading * 1.35 * px
    column = 4.9 * body
    texts: list[Text] = []

    def hold(y: float) -> float:
        role: Role = "value" if hold_first else "label"
        for line in wrap(facts.hold, body, room):
            texts.append(Text(at=(x, y), text=line, size=body, role=role))
            y -= 1.3 * body * px
        return y

    if hold_first:
        y = hold(y) - 0.4 * body * px
    for name, figure in facts.lines:
        if not figure:
            for line in wrap(name, body, room):
                texts.append(Text(at=(x, y), text=line, size=body, role="label"))
                y -= 1.3 * body * px
            y -= step - 1.3 * body * px
            continue
        left = room - column
        size = frame.reading if text_width(figure, frame.reading) <= left else body
        texts.append(Text(at=(x, y), text=name, size=body, role="label"))
        texts.append(
            Text(at=(x + column * px, y), text=shorten(figure, size, left), size=size, role="value")
        )
        y -= step
    if not hold_first:
        hold(y - 0.1 * body * px)
    return texts
