"""The key that finds a machine's family."""
