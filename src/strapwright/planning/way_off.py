"""What the search asks of each step beside its own tests: does the bar go in, does it come off.

Answers are remembered, since the search, its reasons and the plan ask for the same steps.
"""

from __future__ import annotations

from collections.abc import Callable

from attrs import evolve, field, frozen

from strapwright.midline.pose_values import End
from strapwright.ordering.freeing.verdict import comes_off, goes_in
from strapwright.ordering.order_results import FreeingResult
from strapwright.ordering.order_values import PartGeometry, SearchSettings, ToolSection
from strapwright.ordering.refusal_values import NotLaidIn, Outside, StaysOn
from strapwright.planning.surrounding_pieces import Surroundings

KeepGoing = Callable[[], bool]


@frozen(kw_only=True)
class Asked:
    """The search's inputs, with coming off remembered for each state.

    Attributes
    ----------
    around, geometry, settings, nose_radius
        Tooling and part [mm].
    drawable
        The nose can be drawn out endways.
    stays
        Gravity holds the part on the shoulders rather than on the nose.
    even
        The tooling is the same to the left and to the right.
    keep_going
        Asked between slices.
    """

    around: Surroundings
    geometry: PartGeometry
    settings: SearchSettings
    nose_radius: float
    drawable: bool
    stays: bool
    keep_going: KeepGoing
    even: bool
    known: dict[tuple[int, End, tuple[int, ...]], FreeingResult] = field(factory=dict)
    laid: dict[tuple[int, End, tuple[int, ...]], FreeingResult] = field(factory=dict)

    def off(
        self, bend: int, end: End, made: tuple[int, ...], *, what_holds: bool = False
    ) -> FreeingResult:
        """Coming off after a 1-based bend is made on top of the bends made before."""
        key = (bend, end, made)
        known = self.known.get(key)
        other = self.known.get((bend, 1 if end == 2 else 2, made))
        if known is None and other is not None and not other.motion and self.even:
            known = self.known[key] = other  # the same seen from the other side
        if known is None or (what_holds and known.verdict == "TRAPPED" and not known.drawn_frees):
            self.known[key] = self._off(bend, end, made, what_holds=what_holds)
        return self.known[key]

    def _off(
        self, bend: int, end: End, made: tuple[int, ...], *, what_holds: bool
    ) -> FreeingResult:
        section = self.around.section

        def ask(section: ToolSection, *, holds: bool) -> FreeingResult:
            return comes_off(
                section.pieces,
                self.geometry,
                bend,
                self.nose_radius,
                made=tuple(sorted((*made, bend))),
                end_left=end,
                section=section,
                stays=self.stays,
                keep_going=self.keep_going,
                what_holds=holds,
            )

        off = ask(section, holds=what_holds and not self.drawable)
        if not self.drawable or off.verdict != "TRAPPED":
            return off
        # The round alone is drawn out endways; what carries it stays.
        left = tuple(p for p in section.pieces if not (p.side == "nose" and p.contact))
        still = evolve(section, pieces=left)
        if ask(still, holds=False).verdict == "FREE":
            return evolve(off, held_by=("nose",), drawn_frees=True)
        return ask(section, holds=True) if what_holds else off

    def laid_in(self, bend: int, end: End, made: tuple[int, ...]) -> FreeingResult:
        """Laying the bar in for a 1-based bend, as the way off backwards."""
        key = (bend, end, made)
        if key not in self.laid:
            self.laid[key] = goes_in(
                self.around.section,
                self.geometry,
                bend,
                made=made,
                end_left=end,
                keep_going=self.keep_going,
            )
        return self.laid[key]

    def locked(self, bend: int, end: End, made: tuple[int, ...]) -> Outside:
        """Why a step leaves the part locked on the tooling, or the bar cannot be laid in for it.

        A nose that is drawn frees the part where nothing else holds it.  False where nothing is
        against the step.
        """
        key = (bend, end, made)
        if not (key in self.known and key in self.laid) and not self.keep_going():
            return False  # not known to be; what is used in the end is looked at all the same
        off = self.off(bend, end, made)
        if off.verdict in ("TRAPPED", "NO START") and not off.drawn_frees:
            return StaysOn()
        if self.laid_in(bend, end, made).verdict in ("TRAPPED", "NO START"):
            return NotLaidIn()
        return False
