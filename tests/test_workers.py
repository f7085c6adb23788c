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


KIN = """
import os, time
from generator.workers import all_made

def piece(number):
    time.sleep(0.05)  # another process would take the next meanwhile
    return [number, os.getpid()]

kin = ["a", "", "b", *(f"c{n}" for n in range(2 * os.cpu_count())), "a", "b", "a"]
made = all_made([lambda number=number: piece(number) for number in range(len(kin))], kin)
assert [number for number, _ in made] == list(range(len(kin))), made
print(*(len({process for name, (_, process) in zip(kin, made) if name == asked}) for asked in ("a", "b")))
"""


def test_pieces_that_share_what_they_work_out_are_made_in_one_process_and_come_in_their_order() -> None:
    done = subprocess.run([sys.executable, "-c", KIN], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["1", "1"]


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
