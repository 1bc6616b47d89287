"""Planning: the only place that composes bending, blank, order and stopping into one answer."""

from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan, Step
from strapwright.planning.push_further import Push, push_on

__all__ = ["Plan", "Push", "Step", "plan", "push_on"]
