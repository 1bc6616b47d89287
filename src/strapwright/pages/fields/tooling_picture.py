"""The tooling beside its fields before anything can be planned: drawn from the fields alone."""

from __future__ import annotations

from strapwright.drawing import PHONE, Frame, to_svg
from strapwright.drawing.assembly_views.tooling_drawing import SizeWords, tooling_scene
from strapwright.errors import InputError
from strapwright.pages.form import Form
from strapwright.quantities import Units
from strapwright.shop.tooling import Nose, Shoulders
from strapwright.shop_files.quantity_fields import LENGTH
from strapwright.wording.figures import Figures

_BENCH = Frame(width=560.0, height=460.0, body=16.0)
_THREE = {
    "tooling.nose.shaft": "nose diameter",
    "tooling.shoulders.radius": "shoulder radius",
    "tooling.shoulders.opening": "opening",
}


def tooling_picture(form: Form, thickness: float) -> tuple[str, str, str] | None:
    """Draw the tooling, wide and narrow, with the sentence beneath it.

    A size that is not entered yet, or cannot be read, is drawn as large as the example beneath its
    field and carries no figure.

    Parameters
    ----------
    form
        The fields of the tooling.
    thickness
        Of the bar; 0 where it is not known [mm].

    Returns
    -------
    tuple of str or None
        Wide, narrow, sentence; ``None`` where the sizes cannot stand together.
    """
    units = form.units or "inch"
    entered = {name: _read(form, name) for name in _THREE}
    sizes = {
        name: _example(form, name, units) if mm is None else mm for name, mm in entered.items()
    }
    shaft, radius, opening = sizes.values()
    if shaft >= opening - 2 * radius:  # the nose would not pass between the shoulders
        return None
    web = _read(form, "tooling.nose.web.thick")
    nose = Nose(
        radius=shaft / 2,
        web_thickness=web if web is not None and web <= shaft else None,
        web_height=_read(form, "tooling.nose.web.height"),
        reach=_read(form, "tooling.nose.reach"),
    )
    edge = _read(form, "tooling.shoulders.outer_edge")
    shoulders = Shoulders(
        radius=radius,
        opening=opening,
        height=_read(form, "tooling.shoulders.height"),
        outer_edge=edge if edge is not None and edge > opening / 2 else None,
    )
    show = Figures(units=units, reading="1/64" if units == "inch" else "mm")
    said = [(word, "" if entered[name] is None else show.stated(sizes[name]))
            for name, word in _THREE.items()]  # fmt: skip
    words = SizeWords(nose=said[0], radius=said[1], opening=said[2])
    missing = [word for name, word in _THREE.items() if entered[name] is None]
    drawn = [
        to_svg(tooling_scene(nose, shoulders, words, thickness=thickness, frame=frame), None)
        for frame in (_BENCH, PHONE)
    ]
    return drawn[0], drawn[1], _sentence(missing)


def _sentence(missing: list[str]) -> str:
    if not missing:
        return "To scale, at first contact."
    listed = " and ".join(filter(None, (", ".join(missing[:-1]), missing[-1])))
    return f"To scale. Not entered yet, so an example size: {listed}."


def _read(form: Form, name: str) -> float | None:
    """Return a length of the form [mm], ``None`` where it is empty or cannot be read."""
    text = form.values.get(name, "").strip()
    if not text:
        return None
    try:
        mm = float(LENGTH.read(text, name, form.units))
    except InputError:
        return None
    return mm if mm > 0.0 else None


def _example(form: Form, name: str, units: Units) -> float:
    (field,) = [one for one in form.fields if one.name == name]
    return float(LENGTH.read(field.inch if units == "inch" else field.metric, name, units))
