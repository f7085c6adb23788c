"""Bad input of any kind: one clear line on the error stream, and exit 1."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, NoReturn

import click


class Refusal(click.ClickException):
    """Bad input: one sentence, exit 1."""

    def show(self, file: Any = None) -> None:
        """The sentence alone, without a prefix."""
        click.echo(self.format_message(), err=True)


def refuse(sentence: str) -> NoReturn:
    """Ends the command."""
    raise Refusal(sentence)


@contextmanager
def refusing() -> Iterator[None]:
    """Whatever is wrong with a command line ends as a refusal that says where help is."""
    try:
        yield
    except click.exceptions.NoArgsIsHelpError:
        raise  # a command without anything shows its help
    except click.UsageError as error:
        said = " ".join(error.format_message().split())
        end = "" if said.endswith((".", "?")) else "."
        where = f" See `{error.ctx.command_path} --help`." if error.ctx else ""
        raise Refusal(said + end + where) from error
