"""Work shared out among processes."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

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


WAITS = """
import os, time
from generator.workers import all_made

def waits():
    print(os.getpid(), flush=True)
    time.sleep(600)

list(all_made([waits, waits]))
"""


@pytest.mark.skipif(not sys.platform.startswith("linux") or (os.cpu_count() or 1) < 2, reason="elsewhere one process does all")
def test_processes_whose_parent_is_killed_end_by_themselves() -> None:
    """All of them hold the other end of the pipe: it is at its end when the last has gone."""
    parent = subprocess.Popen([sys.executable, "-c", WAITS], stdout=subprocess.PIPE, text=True)
    assert parent.stdout
    at_work = {int(parent.stdout.readline()) for _ in range(2)}
    assert len(at_work) == 2 and parent.pid not in at_work
    parent.kill()
    assert parent.communicate(timeout=60) == ("", None)
