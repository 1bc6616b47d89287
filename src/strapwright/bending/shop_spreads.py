"""How well bar, press and tooling are known before a reading of one's own says it better.

Each figure is one standard deviation unless it says otherwise, and a guess that a shop's log may
replace: the plan takes them as a value.  What a job states of one of these (a certificate, a
measured thickness, how well touch is found) goes before it.
"""

from __future__ import annotations

from attrs import field, frozen, validators

_SPREAD = validators.ge(0.0)


@frozen(kw_only=True)
class BarSpread:
    """Of a lot of bar, beside the spreads of strength and hardening in the catalog.

    Attributes
    ----------
    certified
        Of the strength where a certificate states it, relative [-].  A certificate reports one test
        of the heat; bars of one heat differ by about this much (common practice, no source).
    stated_exponent, stated_unloading, stated_plateau
        Of the hardening exponent, absolute, of the unloading ratio, relative, and of the strain of
        the yield plateau, absolute, where the lot states them [-] (common practice, no source).
    hot_rolled, drawn
        Mill tolerance of the thickness, relative [-].  Hot-rolled flat is sold to about 0.2 mm
        either way at 6 mm, drawn and rolled finishes to about a third of that (from memory).
    measured
        Of a thickness measured with a caliper, relative [-] (common practice, no source).
    """

    certified: float = field(default=0.04, validator=_SPREAD)
    stated_exponent: float = field(default=0.01, validator=_SPREAD)
    stated_unloading: float = field(default=0.02, validator=_SPREAD)
    stated_plateau: float = field(default=0.002, validator=_SPREAD)
    hot_rolled: float = field(default=0.018, validator=_SPREAD)
    drawn: float = field(default=0.006, validator=_SPREAD)
    measured: float = field(default=0.003, validator=_SPREAD)


@frozen(kw_only=True)
class PressSpread:
    """Of what the press adds.

    Attributes
    ----------
    give
        Of the machine's give, relative [-] (common practice, no source).
    reading
        Gauge against true force, relative [-].  Bourdon gauges of this class read to 1.6 % of full
        scale, and seals vary (common practice, no source).
    """

    give: float = field(default=0.2, validator=_SPREAD)
    reading: float = field(default=0.03, validator=_SPREAD)


@frozen(kw_only=True)
class ToolingSpread:
    """Of the tooling and how it meets the bar; how well touch is found the tooling states itself.

    Attributes
    ----------
    friction
        Absolute [-].  Of a dry or oiled bar on a round shoulder friction is 0.05 to 0.2 (from
        memory).
    opening
        [mm].  A wear mark or a chamfer moves the line of contact by about this much (common
        practice, no source).
    radius
        Half band of the inside radius over the nose radius, for the length of the blank [-] (common
        practice, no source).
    """

    friction: float = field(default=0.04, validator=_SPREAD)
    opening: float = field(default=0.15, validator=_SPREAD)
    radius: float = field(default=0.05, validator=_SPREAD)


@frozen(kw_only=True)
class ShopSpreads:
    """What a plan is told of how well everything is known.

    Attributes
    ----------
    bar, press, tooling
        Of each.
    protractor
        Of a free angle read on a bar with mill scale [rad] (common practice, no source).
    """

    bar: BarSpread = BarSpread()
    press: PressSpread = PressSpread()
    tooling: ToolingSpread = ToolingSpread()
    protractor: float = field(default=0.004, validator=_SPREAD)


USUAL_SPREADS = ShopSpreads()
