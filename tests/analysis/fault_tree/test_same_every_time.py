"""The same tree gives the same answer in every process."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[3]
SCRIPT = """
from generator.analysis.fault_tree import Limits, importance, minimal_cut_sets, top_probability
from generator.analysis.mef import to_mef
from tests.analysis.fault_tree.test_limits import tangle
top, q = tangle(40, 16)
for limits in (Limits(), Limits(nodes=2_000, sets=50)):
    print(top_probability(top, q, limits), minimal_cut_sets(top, q, limits))
    print(importance(top, q, limits), to_mef(top, q))
"""


def answers(hashes: str) -> str:
    env = {**os.environ, "PYTHONHASHSEED": hashes, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-c", SCRIPT]
    return subprocess.run(command, env=env, capture_output=True, check=True, text=True).stdout


def test_answers_do_not_hang_on_the_order_of_hashes() -> None:
    first = answers("1")
    assert len(first) > 1000
    assert first == answers("2")
