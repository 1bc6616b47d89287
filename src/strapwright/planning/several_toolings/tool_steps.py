"""Single steps of a part of which each bend is held against the tooling that it is made on."""

from __future__ import annotations

from collections.abc import Sequence

from strapwright.ordering.order_values import PartGeometry, SearchSettings, ToolSection
from strapwright.ordering.possible_bends import Steps


class ToolSteps(Steps):
    """Single steps over several toolings.

    Parameters
    ----------
    sections
        Every tooling with what stands about it.
    part
        The radius of a bend is that of its own tooling.
    settings
        What a step must keep to.
    tools
        Place of each bend's tooling in ``sections``, shape (bends,).
    """

    def __init__(
        self,
        sections: Sequence[ToolSection],
        part: PartGeometry,
        settings: SearchSettings,
        tools: Sequence[int],
    ) -> None:
        super().__init__(sections[0], part, settings)
        each = [Steps(section, part, settings) for section in sections]
        self.tool_of = tuple(tools)
        self._tool_change = settings.costs.tool
        self.symmetric = all(one.symmetric for one in each)
        own = [each[tool] for tool in tools]
        self.lacks = [one.lacks[i] for i, one in enumerate(own)]
        self.strokes = [one.strokes[i] for i, one in enumerate(own)]
        self.shapes = [one.shapes[i] for i, one in enumerate(own)]
        self.tools = [one.tools[i] for i, one in enumerate(own)]

    def untabled(self) -> ToolSteps:
        """Return these answers, which need no tables."""
        return self

    def change(self, before: tuple[int, int, int], after: tuple[int, int, int]) -> int:
        """Cost of laying the bar for ``after`` where it lay for ``before``, on its tooling."""
        cost = super().change(before, after)
        if self.tool_of[before[1]] != self.tool_of[after[1]]:
            cost += self._tool_change
        return cost
