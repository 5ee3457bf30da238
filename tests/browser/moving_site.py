"""A web server whose site can be exchanged, lose a file, or fall silent, as real ones do."""

from __future__ import annotations

import posixpath
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urlsplit

FOLDER = "/shop/book/"


class MovingSite(ThreadingHTTPServer):
    """Serves `folder` under `/shop/book/`. `broken` maps a path to the bytes sent for it instead
    of its own, None for an error; `silent` answers nothing at all."""

    daemon_threads = True

    def __init__(self, folder: Path) -> None:
        super().__init__(("127.0.0.1", 0), _Handler)
        self.folder = folder
        self.broken: dict[str, bytes | None] = {}
        self.silent = False
        self.asked: list[str] = []

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.server_port}{FOLDER}"

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that goes away is no error."""


class _Handler(SimpleHTTPRequestHandler):
    server: MovingSite

    def do_GET(self) -> None:
        path = urlsplit(self.path).path.removeprefix(FOLDER)
        self.server.asked.append(path)
        del self.headers["If-Modified-Since"]  # two builds of one second look alike to it
        if self.server.silent:
            self.close_connection = True
        elif path not in self.server.broken:
            super().do_GET()
        elif self.server.broken[path] is None:
            self.send_error(503)
        else:
            self._send(self.server.broken[path] or b"")

    def _send(self, content: bytes) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)

    def translate_path(self, path: str) -> str:
        asked = posixpath.normpath(unquote(urlsplit(path).path))
        if not (asked + "/").startswith(FOLDER):
            return str(self.server.folder / "nothing-outside-the-folder")
        inside = asked[len(FOLDER) :] or "index.html"
        return str(self.server.folder / inside)

    def log_message(self, format: str, *args: object) -> None:
        pass


@contextmanager
def served(folder: Path) -> Iterator[MovingSite]:
    server = MovingSite(folder)
    threading.Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
    yield server
    server.shutdown()
    server.server_close()


def until(true: Callable[[], object], seconds: float = 20) -> None:
    """Wait until something holds; the test fails when it never does."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, "it never came to hold"
        time.sleep(0.05)
