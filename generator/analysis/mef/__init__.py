"""Fault trees in the Open-PSA Model Exchange Format, an open XML format for fault trees.

Version 2.0, written from memory of the published format. The part for coherent fault trees:
`define-fault-tree`, `define-gate` with `and`, `or` and `atleast`, `define-basic-event` with a
`float`, `label`, `attributes`.
"""

from generator.analysis.mef.reading import from_mef
from generator.analysis.mef.writing import to_mef

__all__ = ["from_mef", "to_mef"]
