"""One job among many, and what came of it, as values that travel between processes."""

from __future__ import annotations

from typing import Any, Literal

from attrs import field, frozen

from strapwright.shop_files.studies.study_values import Value

# Made; the plan holds a refusal or leaves something open; the job cannot be read; the planner
# itself failed, or its process died.
Outcome = Literal["planned", "refused", "open", "not usable", "failed"]

FELL_SHORT: tuple[Outcome, ...] = ("refused", "open", "not usable", "failed")


@frozen(kw_only=True)
class Case:
    """One job to plan.

    Attributes
    ----------
    name
        Its own among the many.
    text
        Of the job file.
    beside
        File name -> text of the shop files it names.
    varied
        Key -> value, where it is one of a study.
    papers
        Whether sheet, template and drawings are wanted too.
    unread
        Why its file cannot be read; empty where it was.
    """

    name: str
    text: str
    beside: dict[str, str] = field(factory=dict)
    varied: dict[str, Value] = field(factory=dict)
    papers: bool = False
    unread: str = ""


@frozen(kw_only=True)
class CaseResult:
    """What came of one job.

    Attributes
    ----------
    name, varied
        Of the case.
    outcome
        In a word.
    said
        One sentence: why it is not simply planned; empty where it is.
    units
        Of the job; empty where it cannot be read.
    figures
        By :func:`strapwright.report.many_jobs_data.case_figures`; empty without a plan.
    files
        File name -> content, where papers were wanted; not kept in the results.
    """

    name: str
    outcome: Outcome
    said: str = ""
    units: str = ""
    varied: dict[str, Value] = field(factory=dict)
    figures: dict[str, Any] = field(factory=dict)
    files: dict[str, bytes] = field(factory=dict)
