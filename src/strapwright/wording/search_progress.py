"""How far a search for tooling is, in words: its phase, candidates looked at, and what it found."""

from __future__ import annotations

from attrs import define

_PHASES = {
    "bending": ("Trying every shaft as a nose", ""),
    "listing": ("Matching plates to noses and shoulders", ""),
    "lower relief": ("Trying lower relief settings", ""),
    "checking": ("Checking strength and bend plans", " candidates"),
}
_BEHIND = 0.5  # share of the way that bending takes


@define
class SearchProgress:
    """Hears what a search tells, and says it.

    Attributes
    ----------
    phase
        Which of the phases, empty before the first.
    done, whole
        Of this phase.
    openings, listed, found
        Noses, shoulders and openings tried, candidates listed, and proposals found so far.
    """

    phase: str = ""
    done: int = 0
    whole: int = 0
    openings: int = 0
    listed: int = 0
    found: int = 0

    def hear(self, word: str, done: int, whole: int) -> None:
        """Take what a search tells.

        Parameters
        ----------
        word, done, whole
            As ``proposing.search_rack.propose`` tells them.
        """
        if word == "found":
            self.found = done
        elif word == "openings":
            self.openings = done
        elif word == "listed":
            self.listed = done
        else:
            self.phase, self.done, self.whole = word, done, whole

    @property
    def share(self) -> float:
        """How far it is, between 0 and 1."""
        if not self.phase:
            return 0.0
        if self.phase == "lower relief":
            return 1.0
        begun = 0.0 if self.phase == "bending" else _BEHIND
        return begun + (1 - _BEHIND) * self.done / max(self.whole, 1)

    @property
    def count(self) -> str:
        """What was looked at so far, as short as it can be said."""
        if self.phase == "checking":
            return f"{self.done} of {self.whole} candidates"
        if self.phase != "bending":
            return f"{self.listed} candidates"
        return f"{self.openings} openings"

    @property
    def text(self) -> str:
        """Phase, how far and what was found."""
        if not self.phase:
            return "Getting ready"
        said, what = _PHASES[self.phase]
        if self.phase == "lower relief":
            return said
        text = f"{said}: {self.done} of {self.whole}{what}"
        if self.phase != "checking":
            text += f"; {self.count} so far"
        if self.found:
            text += f"; {self.found} found so far"
        return text
