"""Many jobs as lines of text: what each came to, and how many came to what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from strapwright.quantities.printing import fixed
from strapwright.wording.reader import in_units

_MOST_ROWS = 60  # on a terminal; all are in the files (common practice, no source)
_LONGEST_NAME = 34  # characters of a name in the table
_SAID = {
    "planned": "planned",
    "refused": "REFUSED",
    "open": "open",
    "not usable": "NOT USABLE",
    "failed": "FAILED",
}
ESTIMATE = "Every figure is a planning estimate. Read each plan before you bend."


def many_jobs_to_text(results: Sequence[Mapping[str, Any]], *, study: bool) -> str:
    """Write the results as a table.

    Parameters
    ----------
    results
        As kept.
    study
        Whether a row is named by what varies, or by its job.
    """
    names = [_name(one, study=study) for one in results]
    wide = max(len("job"), *(len(name) for name in names))
    head = (
        f"  {'varied' if study else 'job':<{wide}} {'blank':>14} {'gauge up to':>12} {'angle':>8}"
    )
    lines = [head]
    for name, one in list(zip(names, results, strict=True))[:_MOST_ROWS]:
        blank, gauge, angle = _figures(one)
        lines.append(
            f"  {name:<{wide}} {blank:>14} {gauge:>12} {angle:>8}  {_SAID[one['outcome']]}"
        )
        if one["said"]:
            lines.append(f"      {one['said']}")
    if len(results) > _MOST_ROWS:
        lines.append(f"  ... and {len(results) - _MOST_ROWS} more, in the files")
    counts = {word: sum(one["outcome"] == word for one in results) for word in _SAID}
    told = [f"{number} {_SAID[word].lower()}" for word, number in counts.items() if number]
    plural = "" if len(results) == 1 else "s"
    return (
        "\n".join([*lines, "", f"{len(results)} job{plural}: {', '.join(told)}.", ESTIMATE]) + "\n"
    )


def _name(one: Mapping[str, Any], *, study: bool) -> str:
    varied = ", ".join(str(value) for value in one["varied"].values())
    name = f"{one['name']}  {varied}" if study else str(one["name"])
    return name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 3]}..."


def _figures(one: Mapping[str, Any]) -> tuple[str, str, str]:
    """Blank, highest gauge and widest angle, in the job's own units; a dash where there is none."""
    if not one["units"]:
        return "-", "-", "-"
    show, figures = in_units(one["units"]).figures, one["figures"]
    blank, gauge, angle = (
        figures[key] for key in ("blank_mm", "most_gauge_MPa", "widest_angle_deg")
    )
    return (
        "-" if blank is None else show.on_bar(blank),
        "-" if gauge is None else show.pressure_up(gauge),
        "-" if angle is None else f"± {fixed(angle, 1)}°",
    )
