"""A folder behind a local web server."""

from __future__ import annotations

import functools
import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class _Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves without a log line for each request."""

    def log_message(self, *_: object) -> None:
        """Nothing."""


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address at which the folder is served while the block lasts."""
    handler = functools.partial(_Quiet, directory=str(folder))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
