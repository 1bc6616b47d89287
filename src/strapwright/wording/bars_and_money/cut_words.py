"""What a cut plan is told in: bars, pieces and off-cuts, for every medium alike."""

from __future__ import annotations

from itertools import groupby

from attrs import frozen

from strapwright.cutting.laid_bars import LaidBar
from strapwright.cutting.shop_cuts import BarSource, SectionCuts
from strapwright.making.shop_lengths import size
from strapwright.quantities import Reading, Units, show_length
from strapwright.quantities.inside_units import INCH_MM
from strapwright.quantities.printing import fixed
from strapwright.shop.bar import Bar

_ORIGINS = {
    "off-cut": "off-cut from the rack",
    "rack": "bar from the rack",
    "supplier": "new bar to buy",
    "assumed": "new bar to buy",
}


@frozen(kw_only=True)
class BarLine:
    """One stop setting on one bar.

    Attributes
    ----------
    count, name, length
        How many pieces, of what, how long.
    ends
        Where each ends, from the end that was squared.
    """

    count: int
    name: str
    length: str
    ends: tuple[str, ...]


@frozen(kw_only=True)
class CutWords:
    """Tells a cut plan in one unit system; ``reading`` is how the tape is read."""

    units: Units
    reading: Reading

    def length(self, mm: float) -> str:
        """Length on the bar, by the rule it is read on."""
        return show_length(mm, self.reading)

    def bar_name(self, bar: Bar) -> str:
        """Section and size of a bar, as on a job."""
        unit = "in" if self.units == "inch" else "mm"
        sides = [bar.thickness, bar.width] if bar.section == "flat" else [bar.thickness]
        shown = " x ".join(size(one, self.units).removesuffix(f" {unit}") for one in sides)
        return f"{bar.section} {shown} {unit}"

    def origin(self, source: BarSource) -> str:
        """Where a bar comes from."""
        called = "" if source.origin == "assumed" else f" {source.name!r}"
        return f"{_ORIGINS[source.origin]}{called}"

    def proof(self, cuts: SectionCuts) -> str:
        """How few bars it could be, and how well that is known."""
        plan = cuts.plan
        if plan.proven:
            return "No plan buys fewer." if plan.new else "Nothing has to be bought."
        return (
            f"This may not be the best: {plan.least} might do. The time ran out; give it more "
            "time, or saw this."
        )

    def new_bar_note(self, cuts: SectionCuts) -> str:
        """Say that a length of new bar was assumed; empty where none was."""
        taken = {bar.kind for bar in cuts.bars}
        for number, source in enumerate(cuts.sources):
            if source.origin == "assumed" and number in taken:
                return (
                    f"The rack names no supplier's bar of this size; {self.length(source.length)} "
                    "is assumed."
                )
        return ""

    def summary(self, cuts: SectionCuts) -> str:
        """How many pieces from how many bars."""
        pieces = sum(one.quantity for one in cuts.pieces)
        own = len(cuts.bars) - cuts.plan.new
        took = [f"{own} from the rack"] if own else []
        took += [f"{cuts.plan.new} to buy"] if cuts.plan.new else []
        bars = counted(len(cuts.bars), "bar")
        return f"{counted(pieces, 'piece')} from {bars}: {' and '.join(took)}."

    def saw(self, cuts: SectionCuts) -> str:
        """What the saw takes, and how often its stop is set."""
        squared = (
            f"square each bar first, {self.length(cuts.squaring)} off its end"
            if cuts.squaring > 0
            else "no end is squared"
        )
        inch = self.units == "inch"
        kerf = f"{fixed(cuts.kerf / INCH_MM, 3)} in" if inch else f"{fixed(cuts.kerf, 1)} mm"
        return (
            f"Kerf {kerf}; {squared}. {counted(cuts.cuts, 'cut')}, "
            f"{counted(cuts.settings, 'stop setting')}."
        )

    def lines(self, cuts: SectionCuts, bar: LaidBar) -> tuple[BarLine, ...]:
        """One line for each run of pieces of one name and length."""
        found = []
        for number, run in groupby(bar.pieces, key=lambda piece: piece.number):
            pieces = list(run)
            found.append(
                BarLine(
                    count=len(pieces),
                    name=cuts.pieces[number].name,
                    length=self.length(cuts.pieces[number].length),
                    ends=tuple(self.length(piece.end - cuts.squaring) for piece in pieces),
                )
            )
        return tuple(found)

    def bars_of(self, cuts: SectionCuts, name: str) -> str:
        """Say which bars the blanks of a part are sawn from; empty where none is."""
        found = []
        for at, bar in enumerate(cuts.bars, start=1):
            names = [cuts.pieces[one.number].name for one in bar.pieces]
            # Further bars of a stack are named after their part.
            count = sum(one == name or one.startswith(f"{name}, ") for one in names)
            if count:
                origin = self.origin(cuts.sources[bar.kind])
                found.append(f"{count} from bar {at} ({self.length(bar.length)}, {origin})")
        return f"{self.bar_name(cuts.bar)}: {', '.join(found)}." if found else ""

    def left(self, cuts: SectionCuts, bar: LaidBar) -> str:
        """What is left of a bar."""
        if bar.offcut < 0.05:
            return "nothing left"
        word = "keep as an off-cut" if cuts.keeps(bar) else "scrap"
        return f"{self.length(bar.offcut)} left, {word}"


def counted(number: int, thing: str) -> str:
    """Return a number with its thing, in the plural where it needs it."""
    return f"{number} {thing}{'' if number == 1 else 's'}"
