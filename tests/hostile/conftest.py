"""The hostile book, its site over http, and Chromium."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from built_once import built_once
from chromium import Browser
from hostile_book import HostileBook

from builder.cli.site_server import SiteServer


@pytest.fixture(scope="session")
def book(tmp_path_factory: pytest.TempPathFactory) -> HostileBook:
    return HostileBook(tmp_path_factory.mktemp("hostile"))


@pytest.fixture(scope="session")
def site(book: HostileBook, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built_once(tmp_path_factory, "hostile-book", book.folder)


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    server = SiteServer(site)
    threading.Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()


@pytest.fixture(scope="session")
def browser(chromium: Browser) -> Browser:
    chromium.resize(1280)
    return chromium
