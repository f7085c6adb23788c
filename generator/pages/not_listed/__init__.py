"""A machine that no family stands for."""
