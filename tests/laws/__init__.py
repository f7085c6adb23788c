"""The laws that every job plan obeys, and a checker of its own: it shares nothing with the planner but the data."""
