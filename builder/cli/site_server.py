"""Showing a built site on this machine, and to nobody else.

A browser on this machine is also the way in for every page it has open: such a page can let its
own name lead to 127.0.0.1 and would then be of one origin with the site. So an answer is given
only to who asks for this machine by a name of its own and by the port that listens.
"""

from __future__ import annotations

import html
import io
import os
import socket
import time
from contextlib import suppress
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import BoundedSemaphore, Lock
from typing import Any, BinaryIO
from urllib.parse import urlsplit

from builder.cli.live_pages import (
    NEWS_URL,
    SCRIPT,
    SCRIPT_URL,
    LivePage,
    News,
    asked_page,
    marked,
    send_news,
)
from builder.rendering.offline import WORKER_URL
from builder.rendering.page_policy import HEADERS
from builder.rendering.pages.left_out import URL as LEFT_OUT_URL

OWN_NAMES = ("127.0.0.1", "localhost", "[::1]")
"""What this machine calls itself. Only the first is listened at; a tunnel may bring the others."""

# Chosen by this project. A browser opens six connections to a server and keeps one or two spare.
MOST_CONNECTIONS = 64
SILENT_S = 10.0
WHOLE_S = 60.0


_NOTICE = """<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><title>Not shown now</title></head>
<body>
<h1>Not shown now</h1>
<p>No page of this book is shown: an older one could say what the book does not say any more. This
page comes back by itself after a moment, or when what follows is mended.</p>
<pre>{}</pre>
</body>
</html>
"""
_NOTHING = b"""<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><title>Not here</title></head>
<body>
<h1>Not here</h1>
<p>This book has no page at this address. It comes by itself when there is one.</p>
</body>
</html>
"""


class SiteHandler(SimpleHTTPRequestHandler):
    """Files of the site with the headers they should have, and without what saves the site.

    Whoever looks at a record while editing it wants the newest page, not the saved one; and the
    next book shown at this address is another.
    """

    server: SiteServer
    timeout = SILENT_S
    server_version, sys_version = "loombook", ""

    def parse_request(self) -> bool:
        """Read a request's head; only what asks this server itself for a path goes on."""
        if not super().parse_request():
            return False
        hosts = self.headers.get_all("Host", [])
        if len(hosts) != 1 or not _is_own(hosts[0], self.server.server_port):
            self.send_error(HTTPStatus.MISDIRECTED_REQUEST, "Shown under 127.0.0.1 only")
            return False
        if not self.path.startswith("/"):
            self.send_error(HTTPStatus.BAD_REQUEST, "A path is asked for by a leading /")
            return False
        del self.headers["If-Modified-Since"]  # two builds of one second would look alike
        return True

    def do_GET(self) -> None:
        """Answer as usual; who asks for news of a page is told them until it goes away."""
        if urlsplit(self.path).path != NEWS_URL:
            super().do_GET()
            return
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.end_headers()
        with suppress(OSError):
            send_news(asked_page(self.path), self._page_at, self.server.news, self.wfile)

    def send_head(self) -> io.BytesIO | BinaryIO | None:
        """Answer as usual, but have no worker and nothing that is no file of the site."""
        if urlsplit(self.path).path == SCRIPT_URL:
            return self._send(HTTPStatus.OK, "text/javascript", SCRIPT)
        place = self._place_of(self.path)
        if self.server.notice or place is None or place.suffix == ".html":
            page = self._page_at(self.path)
            return self._send(page.status, "text/html; charset=utf-8", page.with_script)
        return super().send_head()

    def _page_at(self, path: str) -> LivePage:
        """What an address is answered that is a page, or is nothing."""
        if notice := self.server.notice:
            text = _NOTICE.format(html.escape(notice)).encode()
            return LivePage(HTTPStatus.SERVICE_UNAVAILABLE, text)
        place = self._place_of(path)
        with suppress(OSError):
            if place is not None:
                text = place.read_bytes()
                whole = not (Path(self.directory) / LEFT_OUT_URL).exists()
                return LivePage(HTTPStatus.OK, text if whole else marked(text))
        return LivePage(HTTPStatus.NOT_FOUND, _NOTHING)

    def _place_of(self, path: str) -> Path | None:
        """What an address leads to; None where the site shows nothing."""
        try:
            place = Path(self.translate_path(path))
            if urlsplit(path).path.endswith("/") and place.is_dir():
                place = place / "index.html"
            return place if self._is_shown(place) and place.exists() else None
        except (OSError, ValueError):  # what no disk can hold: too long, or with %00 in it
            return None

    def _send(self, status: HTTPStatus, kind: str, content: bytes) -> io.BytesIO:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        return io.BytesIO(content)

    def _is_shown(self, place: Path) -> bool:
        """Whether a decoded path is of the site: compared as the disk compares, not by letters."""
        site = Path(self.directory).resolve()
        found = place.resolve()
        if not found.is_relative_to(site):
            return False
        worker = site / WORKER_URL
        is_worker = worker.exists() and found.exists() and found.samefile(worker)
        hidden = any(part.startswith(".") for part in found.relative_to(site).parts)
        return not (is_worker or hidden)

    def list_directory(self, path: str | os.PathLike[str]) -> io.BytesIO | None:
        """Answer that a folder without a page is not there."""
        self.send_error(HTTPStatus.NOT_FOUND)
        return None

    def end_headers(self) -> None:
        """Send what the handbook asks of every server, and let nothing be kept."""
        for name, value in (*HEADERS, ("Cache-Control", "no-cache")):
            self.send_header(name, value)
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing: no line for each request."""


def _is_own(host: str, port: int) -> bool:
    """Whether the Host header names this machine and this port; 80 may be left out."""
    names = [f"{name}:{port}" for name in OWN_NAMES]
    return host.strip().lower() in names + (list(OWN_NAMES) if port == 80 else [])


class SiteServer(ThreadingHTTPServer):
    """Shows one folder at 127.0.0.1, to so many at once, each for so long.

    A client that says nothing for `SILENT_S` seconds is let go, and any after `whole_s` seconds;
    beyond `MOST_CONNECTIONS` a further one is closed at once. While `notice` holds words, they
    are the answer to everything, and no file of the folder is.
    """

    daemon_threads = True
    allow_reuse_address = os.name == "posix"  # elsewhere two servers would share the port
    whole_s = WHOLE_S
    notice = ""
    news: News

    def __init__(
        self, folder: Path, port: int = 0, handler: type[SiteHandler] = SiteHandler
    ) -> None:
        """Listen at `port`, at any free one for 0.

        Raises:
            OSError: the port is taken, or not for this user.
        """
        self._free = BoundedSemaphore(MOST_CONNECTIONS)
        self._begun: dict[socket.socket, float] = {}
        self._lock = Lock()
        self.news = News()
        super().__init__(("127.0.0.1", port), partial(handler, directory=str(folder)))

    def tell(self, notice: str = "") -> None:
        """Let these words be the answer to everything, or with none what the folder holds now."""
        self.notice = notice
        self.news.ring()

    def process_request(self, request: Any, client_address: Any) -> None:
        """Give the connection a thread, when one is free."""
        if not self._free.acquire(blocking=False):
            self.shutdown_request(request)
            return
        with self._lock:
            self._begun[request] = time.monotonic()
        try:
            super().process_request(request, client_address)
        except BaseException:  # no thread was to be had
            self._given_back(request)
            raise

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        """Answer one connection, then give its thread back."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._given_back(request)

    def _given_back(self, request: socket.socket) -> None:
        with self._lock:
            self._begun.pop(request, None)
        self._free.release()

    def service_actions(self) -> None:
        """Twice a second: let go whoever has taken too long, sending or reading byte by byte."""
        oldest = time.monotonic() - self.whole_s
        with self._lock:
            slow = [request for request, begun in self._begun.items() if begun < oldest]
        for request in slow:
            with suppress(OSError):
                request.shutdown(socket.SHUT_RDWR)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Say nothing: a browser that goes away in the middle of a page is no error."""
