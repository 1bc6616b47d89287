"""Plan one of many jobs in whatever process it lands in."""

from __future__ import annotations

import functools
import hashlib
import traceback
from pathlib import Path

from strapwright.errors import InputError, StrapwrightError
from strapwright.service.compiler_cache import PACKAGE, prepare_cache
from strapwright.service.many_jobs.case_values import Case, CaseResult, Outcome

_LAST_WORDS = 300  # characters of an unexpected failure that are kept


@functools.cache
def program_digest(package: Path = PACKAGE) -> str:
    """Short digest of the whole program: what it worked out is good for itself alone.

    Parameters
    ----------
    package
        Folder of the package's sources.

    Returns
    -------
    str
        16 hexadecimal digits.
    """
    seen = hashlib.sha256()
    for path in sorted(package.rglob("*")):
        if path.suffix in (".py", ".csv", ".toml"):
            seen.update(path.relative_to(package).as_posix().encode() + b"\0")
            seen.update(path.read_bytes())
    return seen.hexdigest()[:16]


def plan_case(case: Case, digest: str) -> CaseResult:
    """Plan one job; whatever goes wrong with it is told in its result.

    Parameters
    ----------
    case
        The job.
    digest
        Of the program that asks.

    Returns
    -------
    CaseResult
        Of this job alone: another's failure is no concern of it.

    Raises
    ------
    InputError
        Where this process runs another version of the program than the one that asks.
    """
    if program_digest() != digest:
        raise InputError(
            "--scheduler",
            "a worker runs another version of the program",
            "install the same version on every machine and start the workers again",
        )
    if case.unread:
        return CaseResult(name=case.name, outcome="not usable", said=" ".join(case.unread.split()))
    try:
        return _planned(case)
    except StrapwrightError as error:
        said = " ".join(str(error).split())
        return CaseResult(name=case.name, varied=case.varied, outcome="not usable", said=said)
    except Exception as error:  # noqa: BLE001  one job must not take the others with it
        last = traceback.extract_tb(error.__traceback__)[-1]
        said = f"the planner failed: {type(error).__name__} in {Path(last.filename).name}, line "
        said += f"{last.lineno}: {' '.join(str(error).split())}"
        return CaseResult(
            name=case.name, varied=case.varied, outcome="failed", said=said[:_LAST_WORDS]
        )


def _planned(case: Case) -> CaseResult:
    prepare_cache()
    # Only now: the compiler reads its folder when it is imported.
    from strapwright.planning.order_findings import undecided  # noqa: PLC0415
    from strapwright.planning.plan import plan  # noqa: PLC0415
    from strapwright.report.many_jobs_data import case_figures, headline_of  # noqa: PLC0415
    from strapwright.service.plan_files import is_refused, plan_files  # noqa: PLC0415
    from strapwright.service.search_clock import working  # noqa: PLC0415
    from strapwright.shop_files.reading_job import read_job  # noqa: PLC0415

    job = read_job(case.text, beside=case.beside)
    made = plan(job, keep_going=working())
    outcome: Outcome = "planned"
    if is_refused(made):
        outcome = "refused"
    elif undecided(made.findings):
        outcome = "open"
    return CaseResult(
        name=case.name,
        varied=case.varied,
        outcome=outcome,
        said="" if outcome == "planned" else headline_of(made),
        units=job.units,
        figures=case_figures(made),
        files=plan_files(made) if case.papers else {},
    )
