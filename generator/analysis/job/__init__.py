"""The job planner: what to take off, in which order, what to set again, and what it comes to."""

from generator.analysis.job.plan import plan, plan_json

__all__ = ["plan", "plan_json"]
