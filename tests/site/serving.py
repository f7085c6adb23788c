"""A folder behind a local web server."""

from __future__ import annotations

import functools
import http.server
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class _Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves without a log line for each request."""

    def log_message(self, *_: object) -> None:
        """Nothing."""


class Server(http.server.ThreadingHTTPServer):
    """A browser that leaves a page hangs up in the middle of an answer: that is no fault of anyone's."""

    def handle_error(self, request: object, client_address: object) -> None:
        """Says everything but that the other end hung up."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address at which the folder is served while the block lasts."""
    handler = functools.partial(_Quiet, directory=str(folder))
    with Server(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()
