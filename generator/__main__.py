"""The command line: `python -m generator`."""

from __future__ import annotations

import click

from generator.commands.rank import rank


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
def main() -> None:
    """Handwheel: check records, ask the bench, make plans."""


for _command in (rank,):
    main.add_command(_command)

if __name__ == "__main__":
    main(prog_name="python -m generator")
