"""Builds killed at random moments: `python -m tests.kills --times 200`."""
