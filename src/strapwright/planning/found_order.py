"""An order that was found before, which a plan can be made with again."""

from __future__ import annotations

from attrs import frozen


@frozen(kw_only=True)
class FoundOrder:
    """An order that an earlier search of the same part found.

    Attributes
    ----------
    bends
        1-based, in the order of making.
    proven
        Whether that search looked at every other one.
    """

    bends: tuple[int, ...]
    proven: bool
