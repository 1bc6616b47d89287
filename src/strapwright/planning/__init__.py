"""Planning: the only place that composes bending, blank, order and stopping into one answer."""

from strapwright.planning.more import Push, push_on
from strapwright.planning.plan import plan
from strapwright.planning.rolling import roll_words
from strapwright.planning.values import Plan, Step
from strapwright.planning.walking import isometric

__all__ = ["Plan", "Push", "Step", "isometric", "plan", "push_on", "roll_words"]
