"""A page that is open shows what became of it: what `serve` adds to the pages that it sends.

Each page is sent with a script that asks for news of it. The answer is a stream of sums, of what
the page's address would be answered now; at another sum than its own the page loads itself again.
An edit of another record leaves it as it is. Nothing of this is in a built site.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from http import HTTPStatus
from io import BufferedIOBase
from threading import Condition
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

from builder.rendering.pages.left_out import URL as LEFT_OUT_URL

SCRIPT_URL = "/-live/page.js"
NEWS_URL = "/-live/news"
_LOOKS_EVERY_S = 5.0
"""So often somebody is written to who may have gone away."""

SCRIPT = b"""// Of loombook serve alone: loads a page again when its address is answered otherwise.
"use strict";
(() => {
  const own = new URL(document.currentScript.src).search.slice(1);
  let stream = null;
  const listen = () => {
    if (stream || document.hidden) return;
    stream = new EventSource("/-live/news?" + encodeURIComponent(location.pathname));
    stream.onmessage = event => { if (event.data !== own) location.reload(); };
  };
  // A browser keeps few connections to a server: only who is seen holds one.
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) { listen(); return; }
    if (stream) stream.close();
    stream = null;
  });
  listen();
})();
"""


_BODY = b'<div id="content" tabindex="-1">\n'
_LEFT_OUT_MARK = (
    '<p class="private-mark"><strong>Not the whole book.</strong> Records that do not pass the '
    f'check are <a href="/{LEFT_OUT_URL}">left out until they are mended</a>.</p>\n'
).encode()


def marked(page: bytes) -> bytes:
    """Return a page of a site that leaves records out, saying so above everything else.

    Only this machine shows such a site: its files are those of the whole one, so that a record
    which does not stand for a while makes no other page anew.
    """
    return page.replace(_BODY, _BODY + _LEFT_OUT_MARK, 1)


class LivePage(NamedTuple):
    """What an address is answered: its status, its text, and the sum of both."""

    status: HTTPStatus
    text: bytes

    @property
    def sum(self) -> str:
        """What differs when the answer does."""
        return hashlib.sha256(b"%d " % self.status + self.text).hexdigest()[:32]

    @property
    def with_script(self) -> bytes:
        """The text with the script that asks for news of it."""
        script = f'<script src="{SCRIPT_URL}?{self.sum}"></script>\n'.encode()
        before, end, after = self.text.rpartition(b"</body>")
        return before + script + end + after if end else self.text + script


class News:
    """A bell: rung whenever something is shown otherwise."""

    def __init__(self) -> None:
        self._rung, self._bell = 0, Condition()

    def ring(self) -> None:
        """Wake who waits."""
        with self._bell:
            self._rung += 1
            self._bell.notify_all()

    def after(self, heard: int) -> int:
        """Wait until it was rung more often than `heard`, or for a while; how often it was."""
        with self._bell:
            self._bell.wait_for(lambda: self._rung > heard, _LOOKS_EVERY_S)
            return self._rung


def asked_page(news_path: str) -> str:
    """The address of the page that news are asked of."""
    path = unquote(urlsplit(news_path).query)
    return path if path.startswith("/") else "/"


def send_news(path: str, answer: Callable[[str], LivePage], news: News, to: BufferedIOBase) -> None:
    """Write the sum of what an address is answered, now and whenever it may have changed.

    Raises:
        OSError: who listens has gone away.
    """
    heard = 0
    to.write(b"retry: 1000\n\n")
    while True:
        to.write(f"data: {answer(path).sum}\n\n".encode())
        to.flush()
        heard = news.after(heard)
