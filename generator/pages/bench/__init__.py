"""The bench page and the walk on it."""
