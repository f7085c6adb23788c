"""Work shared out among processes."""

from __future__ import annotations

import os
import subprocess
import sys

CODE = """
import os
from generator.diagrams.layout import GraphvizMissing
from generator.workers import all_made

def refused():
    raise GraphvizMissing

here = os.getpid()
made = list(all_made([lambda: [here, os.getpid()], lambda: "ab", lambda: range(3)]))
assert made[1:] == [["a", "b"], [0, 1, 2]], made
assert made[0][0] == here
print(made[0][1] != here)
try:
    list(all_made([lambda: [], refused]))
except GraphvizMissing as error:
    print(error)
"""


def test_results_come_in_order_from_other_processes_and_what_one_raises_is_raised_here() -> None:
    done = subprocess.run([sys.executable, "-c", CODE], capture_output=True, text=True, check=True)
    apart, said = done.stdout.splitlines()
    assert apart == str(sys.platform.startswith("linux") and (os.cpu_count() or 1) > 1)
    assert said.startswith("Graphviz is missing")
