"""The command line: `python -m generator`."""

from __future__ import annotations

from difflib import get_close_matches
from importlib import import_module
from typing import Any, cast

import click

from generator.commands.refusing import refusing

_COMMANDS = (
    "check",
    "compare",
    "coverage",
    "fastener",
    "flow",
    "new",
    "plan",
    "rank",
    "share",
    "tally",
    "timing",
    "tree",
)
"Each is a module of `generator.commands` that holds a command of its own name."


class OnDemand(click.Group):
    """Loads a command's module when it is asked for: an answer should not wait for the others."""

    def make_context(self, *args: Any, **kwargs: Any) -> click.Context:
        """What stands before the command's name; what is wrong with it is refused."""
        with refusing():
            return super().make_context(*args, **kwargs)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; what is wrong with its line is refused."""
        with refusing():
            return super().invoke(ctx)

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every command, by name."""
        return list(_COMMANDS)

    def resolve_command(self, ctx: click.Context, args: list[str]) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that is meant; for a misspelt name, the nearest one."""
        near = get_close_matches(args[0], _COMMANDS, n=1)
        if near and args[0] not in _COMMANDS:
            ctx.fail(f"There is no command '{args[0]}'. Did you mean '{near[0]}'?")
        return super().resolve_command(ctx, args)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """The command, or None for an unknown name."""
        if name not in _COMMANDS:
            return None
        return cast(click.Command, getattr(import_module(f"generator.commands.{name}"), name))


@click.group(cls=OnDemand, context_settings={"help_option_names": ["-h", "--help"]})
def main() -> None:
    """Handwheel: check records, ask the bench, make plans."""


if __name__ == "__main__":
    main(prog_name="python -m generator")
