"""The command line: `python -m generator`."""

from __future__ import annotations

import click

from generator.commands.check import check
from generator.commands.compare import compare
from generator.commands.coverage import coverage
from generator.commands.fastener import fastener
from generator.commands.flow import flow
from generator.commands.new import new
from generator.commands.rank import rank
from generator.commands.share import share
from generator.commands.tree import tree


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
def main() -> None:
    """Handwheel: check records, ask the bench, make plans."""


for _command in (check, new, rank, tree, flow, fastener, coverage, compare, share):
    main.add_command(_command)

if __name__ == "__main__":
    main(prog_name="python -m generator")
