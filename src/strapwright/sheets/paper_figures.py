"""Figures as paper shows them: fractions set, with what they leave over in small."""

from __future__ import annotations

from typing import TypedDict

from attrs import frozen

from strapwright.bending.bend_values import Band
from strapwright.quantities import show_length
from strapwright.scene.lettering import as_fractions
from strapwright.shop.job import Job, Reading, Units
from strapwright.wording.figures import Figures as Plain
from strapwright.wording.figures import figures_for


class Shown(TypedDict):
    """A length: what is read on the rule, and what it leaves over in small."""

    main: str
    rest: str


@frozen(kw_only=True)
class Figures:
    """Prints the figures of one job; lengths by ``reading``, all else by ``units``."""

    job: Job

    @property
    def plain(self) -> Plain:
        """The same figures without type."""
        return figures_for(self.job)

    @property
    def reading(self) -> Reading:
        """How lengths on the bar are read."""
        return self.plain.reading

    @property
    def units(self) -> Units:
        """Unit system of the job."""
        return self.job.units

    def length(self, mm: float) -> Shown:
        """Length on the rule, a fraction with what is left over in 0.001 in."""
        main = show_length(mm, self.reading)
        rest = show_length(mm, self.reading, remainder=True)[len(main) :].strip()
        return Shown(main=as_fractions(main), rest=rest.replace("-", "\N{MINUS SIGN}"))

    def words(self, mm: float) -> str:
        """Length within a sentence: the fraction with its remainder in brackets."""
        shown = self.length(mm)
        return f"{shown['main']} ({shown['rest']})" if shown["rest"] else shown["main"]

    def short(self, mm: float) -> str:
        """Length by its rule, without what is left over."""
        return as_fractions(self.plain.on_bar(mm))

    def others(self, mm: float) -> str:
        """Return the same length on the bar in the forms that ``reading`` is not."""
        inches, metric = show_length(mm, "decimal"), show_length(mm, "mm")
        if self.reading == "mm":
            return inches
        return metric if self.reading == "decimal" else f"{inches}, {metric}"

    def setting(self, mm: float) -> Shown:
        """What the ram is set to: decimals, nothing left over."""
        return Shown(main=self.plain.setting(mm), rest="")

    def beside_setting(self, mm: float) -> str:
        """Return a setting in the other unit, and the nearest division of an inch rule."""
        if self.units == "metric":
            return show_length(mm, "decimal")
        metric = Plain(units="metric", reading="mm").setting(mm)
        return f"{metric}, near {as_fractions(show_length(mm, '1/64'))}"

    def length_between(self, band: Band) -> str:
        """Both ends of a band of lengths."""
        return self.plain.between(band, "mm")

    def angle(self, rad: float, band: Band | None = None) -> str:
        """Angle, as its band allows [rad]."""
        return self.plain.angle(rad, band)

    def pressure(self, mpa: float, band: Band) -> str:
        """Pressure to the digits of its band."""
        return self.plain.pressure(mpa, band)
