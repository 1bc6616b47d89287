"""What a finding is turned into, and what turns it."""

from __future__ import annotations

import math
from collections.abc import Callable

from attrs import frozen

from strapwright.findings import Angle, Finding
from strapwright.wording.reader import Reader


@frozen
class Words:
    """What is the case, and what would mend it; each a sentence or more.

    Attributes
    ----------
    text
        With the figures that matter.
    remedy
        Empty where there is nothing to do.
    """

    text: str
    remedy: str = ""


Teller = Callable[[Finding, Reader], Words]


def degrees(angle: Angle) -> float:
    """Return an angle in degrees."""
    return math.degrees(angle.value)
