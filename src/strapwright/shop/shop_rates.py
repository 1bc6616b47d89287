"""What saw, hours and money are in this shop: one file that every quote and week is made from.

Defaults are common practice without a source; the shop writes its own figures over them.
"""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.shop.bar import Bar
from strapwright.shop.keys import Key, key, keys

PriceBy = Literal["kg", "lb", "m", "ft"]


@frozen(kw_only=True)
class CuttingRules:
    """How bars are cut to length.

    Attributes
    ----------
    kerf
        What one cut takes; ``None`` takes the widest saw of the crib [mm].
    squaring
        What comes off the first end of every bar, with its cut [mm].
    least_offcut
        A piece left over is kept from this length on [mm].
    trim
        What every blank is cut longer, to be trimmed after bending [mm].
    """

    kerf: float | None = key(
        "length",
        zero=True,
        help="what one cut of the saw takes; 0 for a shear",
        left_out="the widest saw of the crib, or the kerf of a usual band saw",
        inch="0.055 in",
        metric="1.4 mm",
        label="Kerf",
        group="Cutting",
    )
    squaring: float = key(
        "length",
        default=3.0,
        zero=True,
        help="what comes off the first end of every bar to square it, with its cut",
        left_out="{0.12 in|3 mm}",
        inch="1/8 in",
        metric="3 mm",
        label="Squaring the end of a bar",
        group="Cutting",
    )
    least_offcut: float = key(
        "length",
        default=300.0,
        help="a piece left over is kept from this length on",
        left_out="{11.8 in|300 mm}",
        inch="12 in",
        metric="300 mm",
        label="Shortest off-cut worth keeping",
        group="Cutting",
    )
    trim: float = key(
        "length",
        default=0.0,
        zero=True,
        help="what every blank is cut longer, to be trimmed after bending",
        inch="1/8 in",
        metric="3 mm",
        label="Trim allowance of a blank",
        group="Cutting",
    )


@frozen(kw_only=True)
class TimeRates:
    """How long the work takes [min].

    Attributes
    ----------
    cut, sawing
        To lay a bar in and clamp it for one cut; area sawn in a minute [mm2].
    set_stop
        To set the length stop of the saw.
    square
        To deburr and check one blank.
    lay_out
        To mark one line.
    drill
        For one hole, with its centre punch.
    set_tooling, set_bend
        To put the tooling into the press, and to set the stops for one bend and try it.
    handle
        To lay a part in for one bend.
    turn
        To turn it over or swap its ends.
    ram
        One stroke where the press has no stated flow.
    take_off
        To take a part off the tooling after one bend.
    finish, twist
        To close one bend in the vise or by squeezing, and to twist one leg, with its gauge.
    check, check_every
        To check a bend with the angle gauge; one part in so many.
    spread
        How far the real time may lie off, as a share.
    """

    cut: float = key(
        "minutes", default=1.5, help="to lay a bar in and clamp it for one cut", inch="1.5",
        label="One cut", hint="laying in and clamping", group="Time, minutes",
    )  # fmt: skip
    sawing: float = key(
        "area rate", default=600.0, inch="600", label="Sawing",
        help='area sawn in a minute, in mm²; with another unit for example "1 in2/min"',
        hint="area in a minute", group="Time, minutes",
    )  # fmt: skip
    set_stop: float = key(
        "minutes", default=2.0, help="to set the length stop of the saw", inch="2",
        label="Setting the saw stop", group="Time, minutes",
    )  # fmt: skip
    square: float = key(
        "minutes", default=1.0, help="to deburr and check one blank", inch="1",
        label="Deburring a blank", group="Time, minutes",
    )  # fmt: skip
    lay_out: float = key(
        "minutes", default=0.5, help="to mark one line", inch="0.5",
        label="Marking a line", group="Time, minutes",
    )  # fmt: skip
    drill: float = key(
        "minutes", default=3.0, help="for one hole, with its centre punch", inch="3",
        label="Drilling a hole", group="Time, minutes",
    )  # fmt: skip
    set_tooling: float = key(
        "minutes", default=20.0, help="to put the tooling into the press", inch="20",
        label="Putting the tooling in", group="Time, minutes",
    )  # fmt: skip
    set_bend: float = key(
        "minutes", default=5.0, help="to set the stops for one bend and try it", inch="5",
        label="Setting up a bend", group="Time, minutes",
    )  # fmt: skip
    handle: float = key(
        "minutes", default=0.5, help="to lay a part in for one bend", inch="0.5",
        label="Laying a part in", group="Time, minutes",
    )  # fmt: skip
    turn: float = key(
        "minutes", default=0.2, help="to turn a part over or swap its ends", inch="0.2",
        label="Turning a part over", hint="or swapping its ends", group="Time, minutes",
    )  # fmt: skip
    ram: float = key(
        "minutes", default=0.75,
        help="for one stroke there and back, where the press has no stated flow", inch="0.75",
        label="A stroke of the ram", hint="where no flow is entered", group="Time, minutes",
    )  # fmt: skip
    take_off: float = key(
        "minutes", default=0.3, help="to take a part off the tooling after one bend", inch="0.3",
        label="Taking a part off", group="Time, minutes",
    )  # fmt: skip
    finish: float = key(
        "minutes", default=3.0, help="to finish one bend at the bench, with its gauge", inch="3",
        label="Finishing a bend at the bench", group="Time, minutes",
    )  # fmt: skip
    twist: float = key(
        "minutes", default=4.0, help="to twist one leg, with its square", inch="4",
        label="Twisting a leg", group="Time, minutes",
    )  # fmt: skip
    check: float = key(
        "minutes", default=1.0, help="to check a bend with the angle gauge", inch="1",
        label="Checking a bend", group="Time, minutes",
    )  # fmt: skip
    check_every: int = key(
        "count", default=5, help="one part in so many is checked", inch="5",
        label="Checked: one part in", group="Time, minutes",
    )  # fmt: skip
    spread: float = key(
        "share", default=0.3, help="how far the real time may lie off, as a share", inch="0.3",
        label="Times may be off by", hint="a share: 0.3 is 30 %", group="Time, minutes",
    )  # fmt: skip


@frozen(kw_only=True)
class MoneyRates:
    """What the work costs, in one currency.

    Attributes
    ----------
    currency
        As printed before a price.
    labour, machining
        Of an hour at saw, bench and press, and of an hour of making tooling.
    consumables
        Of one part.
    scrap
        Parts lost, as a share.
    margin
        As a share of the price before tax.
    tax
        As a share of the price.
    """

    currency: str = key(
        "text", default="USD", help="as printed before a price", inch="USD",
        label="Currency", group="Money", ask="write it in quotes",
    )  # fmt: skip
    labour: float | None = key(
        "money", help="an hour at saw, bench and press", lacking="what the work costs", inch="45",
        label="An hour of work", group="Money", given=True,
    )  # fmt: skip
    machining: float | None = key(
        "money", help="an hour of making tooling", left_out="as an hour of work", inch="45",
        label="An hour of making tooling", group="Money",
    )  # fmt: skip
    consumables: float = key(
        "money", default=0.0, zero=True, help="blades, drills, discs and oil for one part",
        inch="0.50", label="Consumables for one part", group="Money",
    )  # fmt: skip
    scrap: float = key(
        "share", default=0.03, zero=True, help="parts lost, as a share", inch="0.03",
        label="Parts lost", hint="a share: 0.03 is 3 %", group="Money",
    )  # fmt: skip
    margin: float = key(
        "share", default=0.2, zero=True, help="share of the price before tax that is margin",
        inch="0.2", label="Margin", hint="share of the price", group="Money",
    )  # fmt: skip
    tax: float = key(
        "share", default=0.0, zero=True, help="share of the price that is added as tax",
        inch="0.08", label="Tax", hint="a share: 0.08 is 8 %", group="Money",
    )  # fmt: skip


@frozen(kw_only=True)
class WorkHours:
    """When the shop works.

    Attributes
    ----------
    a_day
        Hours at the bench on a working day [h].
    days
        Working days from Monday on.
    """

    a_day: float = key(
        "hours", default=6.0, help="hours at the bench on a working day", inch="6",
        label="Hours a day", group="Hours",
    )  # fmt: skip
    days: int = key(
        "count", default=5, most=7, help="working days of a week, from Monday on", inch="5",
        label="Days a week", group="Hours",
    )  # fmt: skip


@frozen(kw_only=True)
class Price:
    """What a metal or one bar costs.

    Attributes
    ----------
    material, bar
        What it is the price of; a bar goes before a material.
    price, by
        Of a kilogram, pound, metre or foot.
    """

    price: float = key(
        "money", needed=True, help="what one of them costs", inch="1.10",
    )  # fmt: skip
    by: PriceBy = key(
        "choice", needed=True, help="what the price is of: {options}", inch="lb",
        new=('"lb"', '"kg"'),
    )  # fmt: skip
    material: str | None = key(
        "text", help="name of the metal; all metals if left out", inch="A36",
    )  # fmt: skip
    bar: Bar | None = keys(
        Key(
            kind="own",
            name="bar",
            help="the bar, if the price is of this bar alone",
            inch="flat 1/4 x 2",
            metric="flat 6 x 50",
        ),
        default=None,
    )


@frozen(kw_only=True)
class OutsideService:
    """Work that is given out, such as galvanizing.

    Attributes
    ----------
    name
        As on the quote.
    part, lot
        Price of one part, and of sending a lot.
    """

    name: str = key("text", needed=True, help="as on the quote", inch="hot-dip galvanizing")
    part: float = key("money", default=0.0, zero=True, help="price of one part", inch="2.40")
    lot: float = key("money", default=0.0, zero=True, help="price of sending a lot", inch="35")


@frozen(kw_only=True)
class ShopRates:
    """Everything of the file."""

    cutting: CuttingRules = CuttingRules()
    time: TimeRates = TimeRates()
    money: MoneyRates = MoneyRates()
    hours: WorkHours = WorkHours()
    prices: tuple[Price, ...] = keys(
        Key(kind="list", name="price", help="what metal costs"), default=()
    )
    outside: tuple[OutsideService, ...] = keys(
        Key(kind="list", name="outside", help="work that is given out"), default=()
    )
