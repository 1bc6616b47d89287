"""Planning: the only place that composes bending, blank, order and stopping into one answer."""

from strapwright.planning.more import Push, push_on
from strapwright.planning.plan import plan
from strapwright.planning.values import Plan, Step

__all__ = ["Plan", "Push", "Step", "plan", "push_on"]
