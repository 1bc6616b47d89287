"""How far work is that may take so long and no longer."""

from __future__ import annotations

from attrs import frozen

_MINUTE = 60.0  # s


@frozen(kw_only=True)
class HowFar:
    """For how long something runs, and for how long it may at most [s].

    Attributes
    ----------
    waits
        It has not begun yet: others run.
    """

    seconds: float
    most: float
    waits: bool = False

    @property
    def share(self) -> float:
        """Of the time it may take, 0 to 1; it may well be found before."""
        return min(self.seconds / self.most, 1.0)

    @property
    def text(self) -> str:
        """In words, e.g. ``40 s of at most 5 min``."""
        if self.waits:
            return "waits for other searches to end"
        return f"{_told(min(self.seconds, self.most))} of at most {_told(self.most)}"


def _told(seconds: float) -> str:
    if seconds < 2 * _MINUTE and seconds % _MINUTE:
        return f"{seconds:.0f} s"
    return f"{seconds / _MINUTE:.0f} min"
