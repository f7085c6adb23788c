"""Work shared out among processes."""

from __future__ import annotations

import os
import subprocess
import sys

APART = sys.platform.startswith("linux") and (os.cpu_count() or 1) > 1
"Whether work is shared out here."
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
    assert apart == str(APART)
    assert said.startswith("Graphviz is missing")


WAITS = """
import os, time
from generator.workers import all_made

def waits():
    os.write(1, f"{os.getpid()}\\n".encode())  # in one piece: two of them say it at once
    time.sleep(600)

list(all_made([waits, waits]))
"""


def test_processes_whose_parent_is_killed_end_by_themselves() -> None:
    """All of them hold the other end of the pipe: it is at its end when the last has gone. Elsewhere than on Linux one does all."""
    parent = subprocess.Popen([sys.executable, "-c", WAITS], stdout=subprocess.PIPE, text=True)
    assert parent.stdout
    at_work = {int(parent.stdout.readline()) for _ in range(2 if APART else 1)}
    assert at_work.isdisjoint({parent.pid}) if APART else at_work == {parent.pid}
    parent.kill()
    assert parent.communicate(timeout=60) == ("", None)
