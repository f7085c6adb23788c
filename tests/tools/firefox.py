"""Asks a real Firefox whether a built site is set in its own type and runs its own scripts: `python -m tests.tools.firefox site`.

From disk and from a host on this machine. Needs Firefox on the PATH, which `make test` does not bring.
It is spoken to by Marionette, the remote protocol that is built into it: JSON with its length before it.
"""

from __future__ import annotations

import functools
import http.server
import json
import shutil
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

PAGE = "bench/tessaly-40/skipped-stitches.html"
"Deep in the site: its style sheets lie in a folder above it, which is where Firefox draws a line on disk."

_ASK = """
const page = window.wrappedJSObject || window;
const done = arguments[arguments.length - 1];
const ours = [...document.fonts].filter((face) => face.family.includes("Handwheel Docket"));
Promise.all(ours.map((face) => face.load())).then(() => {
  const pen = document.createElement("canvas").getContext("2d");
  const width = (family) => { pen.font = `40px ${family}`; return pen.measureText("hand wheel 11/64").width; };
  done({ faces: ours.map((face) => face.status), ours: width('"Handwheel Docket"'), other: width("serif"),
         used: getComputedStyle(document.body).fontFamily, title: document.title,
         scripts: Boolean(page.handwheel && page.__md_get && document.getElementById("finder")) });
}, (error) => done({ error: String(error) }));
"""


class Marionette:
    """One conversation with one browser."""

    def __init__(self, port: int) -> None:
        self._socket = _connected(port)
        self._number = 0
        self._read()

    def _read(self) -> Any:
        length = b""
        while (byte := self._socket.recv(1)) != b":":
            length += byte
        data = b""
        while len(data) < int(length):
            data += self._socket.recv(int(length) - len(data))
        return json.loads(data)

    def __call__(self, command: str, **given: object) -> Any:
        """The answer to a command. Raises RuntimeError where the browser refuses it."""
        self._number += 1
        text = json.dumps([0, self._number, command, given]).encode()
        self._socket.sendall(b"%d:%s" % (len(text), text))
        _, _, error, answer = self._read()
        if error:
            raise RuntimeError(f"{command}: {error['message']}")
        return answer


def _connected(port: int) -> socket.socket:
    for _ in range(120):
        try:
            return socket.create_connection(("127.0.0.1", port), timeout=60)
        except OSError:
            time.sleep(0.5)
    sys.exit("Firefox did not answer.")


@contextmanager
def _firefox() -> Iterator[Marionette]:
    path = next(filter(None, map(shutil.which, ("firefox", "firefox-esr"))), None)
    if path is None:
        sys.exit("No Firefox on the PATH: install it, or its long-term edition.")
    with socket.create_server(("127.0.0.1", 0)) as probe:
        port = probe.getsockname()[1]
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        (Path(profile) / "user.js").write_text(f'user_pref("marionette.port", {port});\n', encoding="utf-8")
        command = [path, "--headless", "--marionette", "--no-remote", "--profile", profile]
        running = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        try:
            yield Marionette(port)
        finally:
            running.terminate()
            running.wait(30)


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Nothing: the answer is all that is printed."""


@contextmanager
def _host(site: Path) -> Iterator[str]:
    handler = functools.partial(_Quiet, directory=str(site))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()


def main(site: Path) -> bool:
    """Says what Firefox makes of type and scripts from each place, under the page's own policy; whether all is well."""
    well = True
    with _host(site) as host, _firefox() as ask:
        ask("WebDriver:NewSession", capabilities={})
        for name, address in (("disk", (site / PAGE).resolve().as_uri()), ("host", f"{host}/{PAGE}")):
            ask("WebDriver:Navigate", url=address)
            found = ask("WebDriver:ExecuteAsyncScript", script=_ASK, args=[])["value"]
            good = found.get("faces") == ["loaded", "loaded"] and found["ours"] != found["other"] and "Docket" in found["used"] and found["scripts"]
            print(f"{name}: {'its own type and scripts' if good else 'NOT its own type and scripts'} {found}")
            well &= good
    return well


if __name__ == "__main__":
    sys.exit(0 if main(Path(sys.argv[1] if len(sys.argv) > 1 else "site")) else 1)
