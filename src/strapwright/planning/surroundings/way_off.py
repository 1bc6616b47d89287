"""What the search asks of each step beside its own tests: does the bar go in, does it come off.

Answers are remembered, since the search, its reasons and the plan ask for the same steps.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from attrs import evolve, field, frozen

from strapwright.midline.pose_values import End
from strapwright.ordering.cheapest_order import end_of, numbers
from strapwright.ordering.freeing.bar_under_nose import Lying, StackedBar
from strapwright.ordering.freeing.coming_off import comes_off, goes_in
from strapwright.ordering.off_middle_steps import OffMiddleSteps
from strapwright.ordering.order_results import FreeingResult, OrderStep
from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, ToolSection
from strapwright.ordering.refusal_values import NotLaidIn, Reason, StaysOn
from strapwright.planning.hits_and_stacks.stacked_steps import StackedSteps
from strapwright.planning.surroundings.surrounding_pieces import Surroundings

KeepGoing = Callable[[], bool]


@frozen(kw_only=True)
class Opening:
    """Both halves of a tooling as they open over a part.

    Attributes
    ----------
    section
        All that stands there, and how far it opens [mm].
    drawable
        The nose can be drawn out endways.
    stays
        Gravity holds the part on the shoulders rather than on the nose.
    keep_going
        Asked between slices.
    """

    section: ToolSection
    drawable: bool
    stays: bool
    keep_going: KeepGoing

    def off(
        self,
        part: PartGeometry,
        last: int,
        made: Sequence[int],
        end: End,
        *,
        what_holds: bool,
        lies: Lying | None = None,
        stack: Sequence[StackedBar] = (),
    ) -> FreeingResult:
        """Coming off after a 1-based bend; ``made`` are all bends made by then, itself included."""

        def ask(section: ToolSection, *, holds: bool) -> FreeingResult:
            return comes_off(
                section.pieces,
                part,
                last,
                section.nose_radius,
                made=tuple(sorted(made)),
                end_left=end,
                section=section,
                lies=lies,
                stack=stack,
                stays=self.stays,
                keep_going=self.keep_going,
                what_holds=holds,
            )

        off = ask(self.section, holds=what_holds and not self.drawable)
        if not self.drawable or off.verdict != "TRAPPED":
            return off
        # The round alone is drawn out endways; what carries it stays.
        left = tuple(p for p in self.section.pieces if not (p.side == "nose" and p.contact))
        if ask(evolve(self.section, pieces=left), holds=False).verdict == "FREE":
            return evolve(off, held_by=("nose",), drawn_frees=True)
        return ask(self.section, holds=True) if what_holds else off

    def into(
        self,
        part: PartGeometry,
        bend: int,
        made: Sequence[int],
        end: End,
        *,
        lies: Lying | None = None,
        stack: Sequence[StackedBar] = (),
    ) -> FreeingResult:
        """Laying the bar in for a 1-based bend, as the way off backwards."""
        return goes_in(
            self.section,
            part,
            bend,
            made=tuple(sorted(made)),
            end_left=end,
            lies=lies,
            stack=stack,
            keep_going=self.keep_going,
        )


def holders_wanted(known: FreeingResult, *, what_holds: bool) -> bool:
    """Whether what holds a part is asked for and was not looked for yet."""
    return what_holds and known.verdict == "TRAPPED" and not known.drawn_frees and not known.held_by


def against(off: FreeingResult, into: Callable[[], FreeingResult]) -> Reason | None:
    """What speaks against a step: the part stays on, or the bar cannot be laid in.

    What is not decided does not speak against it; the plan says so of the steps it uses.  A nose
    that is drawn frees the part where nothing else holds it.
    """
    if off.verdict in ("TRAPPED", "NO START") and not off.drawn_frees:
        return StaysOn()
    return NotLaidIn() if into().verdict in ("TRAPPED", "NO START") else None


@frozen(kw_only=True)
class Asked:
    """The search's inputs, with coming off remembered for each state.

    Attributes
    ----------
    around, geometry, settings
        Tooling and part.
    opening
        Of the tooling.
    even
        The tooling is the same to the left and to the right.
    stack
        The bars of a stack, each by itself.
    beside
        Steps with the nose as far off the middle as it may stand, to either side; empty where it
        stands in it, or where that is not looked at.
    """

    around: Surroundings
    geometry: PartGeometry
    settings: SearchSettings
    opening: Opening
    even: bool
    stack: StackedSteps | None = None
    beside: tuple[OffMiddleSteps, ...] = ()
    known: dict[tuple[int, End, tuple[int, ...]], FreeingResult] = field(factory=dict)
    laid: dict[tuple[int, End, tuple[int, ...]], FreeingResult] = field(factory=dict)

    @property
    def keep_going(self) -> KeepGoing:
        """Asked now and then."""
        return self.opening.keep_going

    @property
    def section(self) -> ToolSection:
        """What the search itself holds the part against: of a stack every bar is, by itself."""
        section = self.around.section
        return section if self.stack is None else evolve(section, pieces=())

    def nearest(self, step: OrderStep) -> tuple[float, Piece | None]:
        """Clearance that a step keeps at least, and the piece that is to [mm]."""
        state = sum(1 << b - 1 for b in step.made), step.bend - 1, step.end_left - 1
        if self.stack is not None:
            return self.stack.nearest(*state)
        found = [(step.clearance, step.nearest), *(one.nearest(*state) for one in self.beside)]
        return min(found, key=lambda one: one[0])

    def off(
        self, bend: int, end: End, made: tuple[int, ...], *, what_holds: bool = False
    ) -> FreeingResult:
        """Coming off after a 1-based bend is made on top of the bends made before."""
        key = (bend, end, made)
        known = self.known.get(key)
        other = self.known.get((bend, 1 if end == 2 else 2, made))
        if known is None and other is not None and not other.motion and self.even:
            known = self.known[key] = other  # the same seen from the other side
        if known is None or holders_wanted(known, what_holds=what_holds):
            found = self.opening.off(
                self.geometry,
                bend,
                (*made, bend),
                end,
                what_holds=what_holds,
                stack=self._bars(bend),
            )
            # What was decided stays so where there is no time left for what holds the part.
            self.known[key] = found if known is None or found.verdict != "NO TIME" else known
        return self.known[key]

    def _bars(self, bend: int) -> tuple[StackedBar, ...]:
        return () if self.stack is None else self.stack.bars_at(bend - 1)

    def laid_in(self, bend: int, end: End, made: tuple[int, ...]) -> FreeingResult:
        """Laying the bar in for a 1-based bend, as the way off backwards."""
        key = (bend, end, made)
        if key not in self.laid:
            self.laid[key] = self.opening.into(
                self.geometry, bend, made, end, stack=self._bars(bend)
            )
        return self.laid[key]

    def forbids(self, bend: int, end: End, made: tuple[int, ...]) -> Reason | None:
        """Find which bar of a stack a step cannot be made with, or what else is against it."""
        if self.stack is not None:
            why = self.stack.why_not(sum(1 << one - 1 for one in made), bend - 1, end - 1)
            if why is not None:
                return why
        for steps in self.beside:
            met = steps.in_the_way(sum(1 << one - 1 for one in made), bend - 1, end - 1)
            if met is not None:
                return met
        return against(self.off(bend, end, made), lambda: self.laid_in(bend, end, made))

    def outside(self, made: int, bend: int, end: int) -> Reason | None:
        """Answer as :meth:`forbids` does, of a bit set and a 0-based bend and end."""
        return self.forbids(bend + 1, end_of(end), numbers(made))
