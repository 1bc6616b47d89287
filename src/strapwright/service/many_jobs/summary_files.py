"""The files that sum up many jobs: JSON, a table of columns, and charts of a study."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from typing import Any

from strapwright.drawing import to_svg
from strapwright.drawing.study_charts.study_drawing import study_scene
from strapwright.drawing.study_charts.study_series import study_charts
from strapwright.quantities import Units
from strapwright.report.json_text import to_text
from strapwright.report.many_jobs_data import BEND_COLUMNS, table_rows
from strapwright.service.many_jobs.case_values import Case

FORMAT = 1
NO_TABLE = (
    "results.parquet is left out, as pyarrow is not installed; install it with: "
    "pip install 'strapwright[many]'"
)
_WHOLE = ("bends", "warnings", "refusals")
_TEXTS = ("case", "outcome", "said")


def summary_files(
    name: str, results: Sequence[Mapping[str, Any]], cases: Sequence[Case], drawn: Sequence[str]
) -> tuple[dict[str, bytes], str]:
    """Make the files.

    Parameters
    ----------
    name
        Of the study or the folder.
    results
        As kept, in the order of ``cases``.
    cases
        The jobs.
    drawn
        Keys whose values are drawn, and so make no axis of a chart.

    Returns
    -------
    files, note
        File name -> content, and a sentence where one is left out, else empty.
    """
    files = {
        "results.json": to_text({"format": FORMAT, "name": name, "cases": list(results)}).encode()
    }
    table = parquet_bytes(table_rows(results))
    if table is not None:
        files["results.parquet"] = table
    units: Units | None = next((one["units"] for one in results if one["units"]), None)
    if units is not None and any(one.varied for one in cases):
        keys = [key for key in cases[0].varied if key not in drawn]
        listed = {key: tuple(dict.fromkeys(str(one.varied[key]) for one in cases)) for key in keys}
        for chart, content in study_charts(name, listed, results, units).items():
            scene = study_scene(content)
            for theme in ("dark", "light"):
                files[f"{chart}.{theme}.svg"] = to_svg(scene, theme).encode()
    return files, "" if table is not None else NO_TABLE


def parquet_bytes(rows: Sequence[Mapping[str, Any]]) -> bytes | None:
    """Write rows as an Apache Parquet table; ``None`` where its library is not installed.

    Parameters
    ----------
    rows
        All with the same keys.
    """
    try:
        import pyarrow as pa  # noqa: PLC0415  an extra
        from pyarrow import parquet  # noqa: PLC0415
    except ImportError:
        return None
    kinds = {name: _kind(name, pa) for name in rows[0]}
    stream = io.BytesIO()
    # Every column has its kind by its name, so that a column of gaps alone has one too.
    parquet.write_table(pa.Table.from_pylist(list(rows), pa.schema(kinds)), stream)
    return stream.getvalue()


def _kind(name: str, pa: Any) -> Any:
    if name in _TEXTS or name.startswith("vary "):
        return pa.string()
    if name in _WHOLE:
        return pa.int32()
    if name.startswith("bend_") and name.removeprefix("bend_") in BEND_COLUMNS:
        return pa.list_(pa.int32() if name == "bend_bend" else pa.float64())
    return pa.float64()
