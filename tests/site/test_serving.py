"""The tests' own web server: quiet where a browser hangs up, and only there."""

from __future__ import annotations

import http.server

import pytest

from tests.site.serving import Server


@pytest.mark.parametrize(
    ("fault", "quiet"), [(BrokenPipeError(), True), (ConnectionResetError(), True), (ValueError(), False), (OSError(), False)]
)
def test_only_a_browser_that_hangs_up_goes_without_a_word(fault, quiet, capsys):
    with Server(("127.0.0.1", 0), http.server.BaseHTTPRequestHandler) as server:
        try:
            raise fault
        except Exception:
            server.handle_error(None, ("127.0.0.1", 1))
    assert (capsys.readouterr().err == "") == quiet
