"""Records spoilt at random: `python -m tests.fuzz --mutants 20000 --seed 1`."""
