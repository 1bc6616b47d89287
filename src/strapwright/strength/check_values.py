"""Values of a strength check: loads, one check, what could not be checked, and the whole."""

from __future__ import annotations

import math
from typing import Literal

from attrs import evolve, field, frozen

from strapwright.catalog.materials import Grade
from strapwright.errors import as_written
from strapwright.findings import Finding
from strapwright.quantities import Units
from strapwright.quantities.inside_units import InsideUnit
from strapwright.shop.member_names import MemberName
from strapwright.shop.other_tooling import OtherTooling
from strapwright.shop.press import Press
from strapwright.shop.tooling import Tooling
from strapwright.strength.fixing.fix_values import Fix
from strapwright.strength.hand_figures import shown

ESTIMATE = "A planning estimate, not a certification. Local codes and licensed practice come first."

LoadCase = Literal["plan", "relief", "retract"]


def case_name(case: str, *, off_centre: bool, on: str = "") -> str:
    """Name a load case, with the other tooling that it is on."""
    name = f"{case} off centre" if off_centre else case
    return f"{name} on {on}" if on else name


@frozen(kw_only=True)
class Load:
    """One load case.

    Attributes
    ----------
    case
        The plan's own push, the push at relief, or pulling back.
    force
        On the nose, or pulling back [N].
    outward
        Of each shoulder [N].
    offset
        From the ram's axis, along the nose [mm].
    near
        Share of the push on the shoulder that takes more of it [-]; half where the nose stands in
        the middle.
    across
        Across the nose, because it stands off the middle [N].
    inward
        Whether the shoulders are pushed towards each other with ``outward``, as by a bend that is
        opened on them.
    """

    case: LoadCase
    force: float
    outward: float = 0.0
    offset: float = 0.0
    near: float = 0.5
    across: float = 0.0
    inward: bool = False

    @property
    def down(self) -> float:
        """Push along the ram on the shoulder that takes more of it [N]."""
        return self.near * self.force

    @property
    def down_formula(self) -> str:
        """How a line of hand calculation writes that."""
        return "F/2" if self.near == 0.5 else f"{self.near:.3g} F"

    @property
    def name(self) -> str:
        """What it is called: ``relief``, ``relief off centre``."""
        return case_name(self.case, off_centre=self.offset != 0.0)


@frozen(kw_only=True)
class Bench:
    """What is checked, and the loads it is held to.

    Attributes
    ----------
    tooling
        With its members.
    press
        ``None`` where nothing is said of it.
    thickness, width
        Of the bar, ``width`` of all bars side by side, of several parts the narrowest [mm].
    widest
        Of several parts the widest [mm].
    missing
        What ``width`` loses where one of several bars side by side is not there [mm].
    steepness
        How much more a bend gets a travel, where that is most [rad/mm]; ``None`` without a plan.
    pushes
        Load cases of the push, centred and off centre.
    retract
        ``None`` without bore, rod and relief.
    other
        Other tooling of the job whose bends ask this; ``None`` for the job's own.
    shared
        What each other tooling of the job asks of the members that it shares with this one.
    """

    tooling: Tooling
    press: Press | None
    thickness: float
    width: float
    widest: float
    pushes: tuple[Load, ...]
    retract: Load | None
    missing: float = 0.0
    steepness: float | None = None
    other: OtherTooling | None = None
    shared: tuple[Bench, ...] = ()

    @property
    def on(self) -> str:
        """Name of the other tooling; empty for the job's own."""
        return "" if self.other is None else self.other.name

    @property
    def named_loads(self) -> tuple[tuple[str, Load], ...]:
        """Every load case under its name: the pushes, those on other tooling, pulling back."""
        pushes = [
            (case_name(load.case, off_centre=load.offset != 0.0, on=one.on), load)
            for one in (self, *self.shared)
            for load in one.pushes
        ]
        back = () if self.retract is None else ((self.retract.name, self.retract),)
        return (*pushes, *back)

    def with_own(self, tooling: Tooling) -> Bench:
        """Return the same loads on another tooling of the job, what shares members with it too."""
        return evolve(
            self,
            tooling=tooling if self.other is None else self.other.sharing(tooling),
            shared=tuple(one.with_own(tooling) for one in self.shared),
        )

    @property
    def loaded(self) -> float:
        """Width that takes the whole push with a bar missing, the narrowest of all [mm]."""
        return self.width - self.missing

    @property
    def centred(self) -> tuple[Load, ...]:
        """The pushes without offset."""
        return tuple(load for load in self.pushes if load.offset == 0.0)


# Symbol, value and the unit it is held in, of what stands in a formula.
Input = tuple[str, float, InsideUnit]


@frozen(kw_only=True)
class Check:
    """One member under one load in one way of failing, a line of hand calculation.

    Attributes
    ----------
    member, what
        ``push plate``, ``bending``.
    case, off_centre
        Load that it is held to, ``any`` where it depends on none.
    demand, capacity
        What is asked of it, and the most that is allowed with ``factors`` already in it, both in
        ``unit``.
    factors
        Name -> factor, e.g. ``safety on yield`` 1.67.
    formula
        Of the demand.
    allowed
        Formula of the capacity.
    source, grade
        Of the formula and its factors.
    inputs
        Symbol, value and unit of what stands in the formula.
    where
        Key path of what could be changed.
    grows
        Power with which the demand grows with the force; 0 where it does not.
    oil
        Whether its MPa are pressures of oil, which are shown in psi or bar.
    breaks
        Whether something breaks or stays bent where it does not hold; else the part comes out
        worse, and no less push mends that.
    on
        Other tooling of the job whose bends ask it; empty for the job's own.
    """

    member: MemberName
    what: str
    case: LoadCase | Literal["any"]
    off_centre: bool = False
    demand: float
    capacity: float
    unit: InsideUnit
    factors: tuple[tuple[str, float], ...] = ()
    formula: str
    allowed: str
    source: str
    grade: Grade
    inputs: tuple[Input, ...] = ()
    where: str
    grows: float = 1.0
    oil: bool = False
    breaks: bool = True
    on: str = ""

    @property
    def load_case(self) -> str:
        """What its load is called."""
        return case_name(self.case, off_centre=self.off_centre, on=self.on)

    @property
    def ratio(self) -> float:
        """Demand over capacity; above 1 it does not hold, and where there is none [-]."""
        ratio = self.demand / self.capacity if self.capacity > 0.0 else math.inf
        return math.inf if math.isnan(ratio) else ratio

    @property
    def holds(self) -> bool:
        """Whether it is within what is allowed."""
        return self.ratio <= 1.0

    def shown(self, value: float, units: Units) -> str:
        """Return its demand or its capacity as read in the shop."""
        return shown(value, self.unit, units, oil=self.oil)

    def inputs_shown(self, units: Units) -> tuple[tuple[str, str], ...]:
        """Symbol and figure as read in the shop of what stands in its formula."""
        return tuple(
            (name, shown(value, unit, units, oil=self.oil)) for name, value, unit in self.inputs
        )

    def line(self, units: Units) -> str:
        """Return the check as a line of hand calculation.

        Parameters
        ----------
        units
            Unit system to print in.
        """
        given = ", ".join(f"{name} = {text}" for name, text in self.inputs_shown(units))
        factors = "".join(f", {name} {value:g}" for name, value in self.factors)
        share = f"{100 * self.ratio:.0f} %" if self.ratio < 100 else "far over"
        return (
            f"{self.member}, {self.what}, {self.load_case}: {self.formula} = "
            f"{self.shown(self.demand, units)} against {self.allowed} = "
            f"{self.shown(self.capacity, units)}: {share}, "
            f"{'holds' if self.holds else 'does not hold'}"
            f"{'; with ' if given else ''}{given}{factors} [{self.source}, {self.grade}]"
        )


@frozen(kw_only=True)
class Unchecked:
    """A member that could not be checked.

    Attributes
    ----------
    member
        Which.
    what
        The check that was not made.
    state
        What to state so that it can be, as an order; keys in it are marked as in an error.
    where
        Key path of what is missing.
    carries
        Whether a push can break what was not checked, so that there is no rating without it.
    """

    member: MemberName
    what: str
    state: str
    where: str
    carries: bool = True

    @property
    def sentence(self) -> str:
        """As told, with keys as a file has them."""
        return as_written(self.marked)

    @property
    def marked(self) -> str:
        """The same with its keys marked, see :func:`strapwright.errors.named`."""
        return f"{self.member}, {self.what}: not checked; {self.state}."


Result = Check | Unchecked


@frozen(kw_only=True)
class Assessment:
    """All checks of a tooling.

    Attributes
    ----------
    checks
        Every check made, the weakest first.
    unchecked
        What could not be checked.
    findings
        What follows from both.
    fixes
        One for each member that does not hold, where one was found, each made on the last.
    fixed
        Whether every check holds once all of them are made.
    rating
        Force on the nose that every checked member stands, at most that at relief; ``None`` where
        something that carries it was not checked, or nothing was [N].
    relief_to_set
        Relief setting at which every member holds, where the one stated is too high [MPa].
    """

    checks: tuple[Check, ...]
    unchecked: tuple[Unchecked, ...]
    findings: tuple[Finding, ...]
    fixes: tuple[Fix, ...] = ()
    fixed: bool = False
    rating: float | None = None
    relief_to_set: float | None = None
    estimate: str = field(default=ESTIMATE)

    @property
    def holds(self) -> bool:
        """Whether every check made holds; what is unchecked is not proven by it."""
        return all(check.holds for check in self.checks)
