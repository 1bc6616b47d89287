"""Run every case file in a folder by its kind and say how each came out.

``python3 start.py validate [--cases DIR] [--json FILE]``; exit code 0 only where none fails.
With ``--table NAME`` one of the longer tables instead: the solver against the referee, what the
referee says of the cases' springback, what the bands hold, the constants left out, what a yield
plateau does, random bars, random jobs, the shop log, unknown bars, the control chart.
"""

from __future__ import annotations

import argparse
import importlib
import json
import sys
from collections.abc import Sequence
from pathlib import Path

from attrs import asdict

from case_files import CaseResult, Verdict, failed, read_case
from strapwright.errors import StrapwrightError

HERE = Path(__file__).parent
OWN_CASES = HERE / "cases"
# Kind 'stroke' is run by stroke_cases.run(case) -> name, figures, verdict, text and, if any, why.
# The longer tables and the scripts that print them; each can also be run by itself.
TABLES = {
    "referee": "referee",
    "springback": "springback_asked",
    "bands": "band_coverage",
    "left-out": "leave_one_out",
    "plateau": "plateau_effect",
    "sweep": "sweep",
    "jobs": "job_sweep",
    "learning": "learning_study",
    "unknown": "unknown_bars",
    "chart": "chart_runs",
}
KINDS = tuple(sorted(p.stem.removesuffix("_cases") for p in HERE.glob("*_cases.py")))


def run_file(path: Path, folder: Path) -> CaseResult:
    """Run one file; whatever is wrong with it becomes a failed case with a sentence."""
    file = path.relative_to(folder).as_posix()
    kind = "?"
    try:
        case = read_case(path)
        kind = str(case.get("kind", "?"))
        if kind not in KINDS:
            known = ", ".join(KINDS)
            return failed(file, kind, f"kind {kind[:60]!r} is not known; known are: {known}.")
        row = importlib.import_module(f"{kind}_cases").run(case)
    except StrapwrightError as error:
        return failed(file, kind, str(error))
    except (LookupError, TypeError, ValueError) as error:
        return failed(
            file, kind, f"the file does not hold what this kind needs ({error!r}); mend the file."
        )
    return CaseResult(
        file=file,
        kind=kind,
        name=row["name"],
        verdict=Verdict(row["verdict"]),
        line=row["text"],
        figures=row["figures"],
        why=tuple(row.get("why", ())),
    )


def run_folder(folder: Path) -> list[CaseResult]:
    """Run all JSON files under a folder, sorted by path."""
    return [run_file(path, folder) for path in sorted(folder.rglob("*.json"))]


def print_case(result: CaseResult) -> None:
    """Print one line a case; what is behind a verdict follows indented."""
    kind = result.kind[:60]
    print(f"{kind:<7} {result.name[:24]:<10} {result.line or '-'}: {result.verdict}")
    for sentence in result.why:
        print(f"        {result.file}: {sentence}")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(prog="start.py validate", description=__doc__)
    parser.add_argument("--cases", type=Path, default=OWN_CASES, metavar="DIR")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the results there too")
    parser.add_argument(
        "--table", choices=tuple(TABLES), help="print this table instead (a minute or two)"
    )
    options = parser.parse_args(arguments)
    if options.table is not None:
        kept = [] if options.json is None else ["--json", str(options.json)]
        return int(importlib.import_module(TABLES[options.table]).main(kept))
    if not options.cases.is_dir():
        print(f"--cases {str(options.cases)!r}: there is no such folder; name one with case files.")
        return 1
    results = run_folder(options.cases)
    for result in results:
        print_case(result)
    counts = {v: sum(r.verdict is v for r in results) for v in Verdict}
    print(f"{len(results)} cases: {', '.join(f'{n} {v}' for v, n in counts.items())}")
    if not results:
        print(f"--cases {str(options.cases)!r}: no case file ends in .json; name another folder.")
    if options.json is not None:
        table = [asdict(result) for result in results]
        try:
            options.json.write_text(json.dumps(table, indent=1) + "\n", encoding="utf-8")
        except OSError as error:
            print(f"--json {str(options.json)!r}: cannot be written ({error.strerror}).")
            return 1
    return 0 if results and not counts[Verdict.FAIL] else 1


if __name__ == "__main__":
    sys.exit(main())
