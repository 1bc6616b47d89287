"""The fields of the bar and of the press."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve

from strapwright.catalog import materials
from strapwright.pages.fields.form_fields import Field
from strapwright.pages.fields.key_fields import Raw, fields_under, key_field
from strapwright.shop.bar import Lot
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.keys import keys_of
from strapwright.shop.part import Part
from strapwright.shop.press import Press
from strapwright.wording.caution_words import STALL

_BAR = {"bar": "The bar", "lot": "This batch (optional)"}
_PRESS = {
    "cylinder": "1  Measure the cylinder",
    "gauge": "2  Read the gauge",
    "pump": "3  Ram speed",
    "give": "4  How much the press flexes",
}
# Key of a plate that stays -> heading, and its name in front of a label.
_STAYS = {
    "push_plate": ("Push plate that stays (optional)", "Push plate"),
    "bed_plate": ("Bed plate that stays (optional)", "Bed plate"),
    "bed": ("Bed of the frame (optional)", "Bed"),
}

# Group -> what is to be minded before it is measured.
CAUTIONS = {_PRESS["give"]: STALL}


def bar_fields(raw: Raw) -> tuple[Field, ...]:
    """Bar and what is known of this batch of it."""
    bar = _BAR["bar"]
    return (
        Field(
            name="bar.section",
            label="Section",
            choices=(("flat", "flat"), ("square", "square"), ("round", "round")),
            group=bar,
        ),
        Field(
            name="bar.thickness",
            label="Thickness",
            kind="length",
            inch="1/4 in",
            metric="6 mm",
            hint="side of square bar, diameter of round bar; or the whole bar, 3/8 x 3 flat",
            needed=True,
            group=bar,
        ),
        Field(
            name="bar.width",
            label="Width",
            kind="length",
            inch="2 in",
            metric="50 mm",
            hint="flat bar only",
            group=bar,
        ),
        *map(_metal, fields_under(_BAR, {"part": Part, "lot": Lot}, raw)),
    )


def _metal(field: Field) -> Field:
    """Offer the metals of the catalog for the material."""
    if field.name != "part.material":
        return field
    return evolve(field, inch="", metric="", choices=tuple((one, one) for one in metal_names()))


def metal_names() -> list[str]:
    """Names of the metals that the catalog knows, in its order."""
    return [metal.name for metal in materials()]


def press_fields(raw: Raw) -> tuple[Field, ...]:
    """Press: what is read off it, what is timed, what is measured against a block."""
    fields = list(fields_under(_PRESS, {"press": Press}, raw))
    pump = next(at for at, field in enumerate(fields) if field.group == _PRESS["pump"])
    return (*fields[:pump], *_timed_fields(_PRESS["pump"]), *fields[pump:], *_plates_that_stay())


def _plates_that_stay() -> Iterator[Field]:
    """Plates of the press that new tooling is made to; a first plan does without them."""
    for name, (heading, whose) in _STAYS.items():
        for key in keys_of(KeptPlate).values():
            field = key_field(key, f"press.{name}", heading)
            label = f"{whose}: {field.label[:1].lower()}{field.label[1:]}"
            yield evolve(field, label=label, needed=False, later=True)


def _timed_fields(group: str) -> tuple[Field, ...]:
    return (
        Field(
            name="timed.distance",
            label="Ram travel timed",
            kind="length",
            inch="4 in",
            metric="100 mm",
            hint="no load; works out the pump flow",
            group=group,
        ),
        Field(
            name="timed.seconds",
            label="time taken, seconds",
            kind="share",
            inch="9.5",
            group=group,
        ),
    )
