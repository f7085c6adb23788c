"""Commands asked over the sound records."""

from __future__ import annotations

import json

from click.testing import CliRunner, Result

COMPLAINT = ("skipped-stitches", "-f", "testa-1")


def run(command, *arguments: str) -> Result:
    return CliRunner().invoke(command, arguments)


def asked(command, *arguments: str) -> dict:
    result = run(command, *arguments, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.output)
