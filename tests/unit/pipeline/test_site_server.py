"""What the server of `loombook serve` answers, to whom, for how long: asked over bare sockets."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from builder.cli import site_server
from builder.cli.site_server import SiteHandler, SiteServer
from builder.rendering.page_policy import HEADERS

SOON_S = 0.01  # how long the end of a test waits for its server
PAGE = "<!doctype html><title>home</title>"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = tmp_path / "site"
    (folder / "vehicles").mkdir(parents=True)
    (folder / "index.html").write_text(PAGE, "utf-8")
    (folder / "worker.js").write_text("// saves the site", "utf-8")
    (folder / ".loombook-site").write_text("a mark", "utf-8")
    (folder / "vehicles" / "a.html").write_text("<p>a</p>", "utf-8")
    (tmp_path / "secret.txt").write_text("secret", "utf-8")
    (folder / "way-out.txt").symlink_to(tmp_path / "secret.txt")
    return folder


def started(server: SiteServer) -> Iterator[SiteServer]:
    threading.Thread(target=server.serve_forever, args=(SOON_S,), daemon=True).start()
    yield server
    server.shutdown()
    server.server_close()


@pytest.fixture
def server(site: Path) -> Iterator[SiteServer]:
    yield from started(SiteServer(site))


def asked(server: SiteServer, text: str) -> str:
    """What comes back for the bytes of a request, until the server closes."""
    with socket.create_connection(("127.0.0.1", server.server_port), timeout=20) as client:
        client.sendall(text.encode("latin-1"))
        return until_closed(client)


def until_closed(client: socket.socket) -> str:
    received = b""
    try:
        while chunk := client.recv(65536):
            received += chunk
    except ConnectionError:
        pass
    return received.decode("utf-8", "replace")


def status(answer: str) -> int:
    return int(answer.split(" ", 2)[1])


def get(server: SiteServer, path: str, host: str | None = None, method: str = "GET") -> str:
    host = f"127.0.0.1:{server.server_port}" if host is None else host
    return asked(server, f"{method} {path} HTTP/1.1\r\nHost: {host}\r\n\r\n")


@pytest.mark.parametrize("name", ["127.0.0.1", "localhost", "LocalHost", "[::1]"])
def test_a_name_of_this_machine_is_answered(server: SiteServer, name: str) -> None:
    answer = get(server, "/", f"{name}:{server.server_port}")
    assert status(answer) == 200 and PAGE in answer


@pytest.mark.parametrize(
    "host",
    [
        "pins.example:{port}",  # a page's own name that was made to lead to 127.0.0.1
        "127.0.0.1.pins.example:{port}",
        "localhost.pins.example:{port}",
        "127.0.0.1:{other}",  # another server of this machine
        "127.0.0.1",
        "localhost",
        "0.0.0.0:{port}",
        "127.0.0.1:{port}@pins.example",
        "",
    ],
)
def test_another_host_or_port_is_not_answered(server: SiteServer, host: str) -> None:
    port = server.server_port
    answer = get(server, "/", host.format(port=port, other=port - 1))
    assert status(answer) == 421
    assert PAGE not in answer


def test_a_request_without_a_host_or_with_two_is_not_answered(server: SiteServer) -> None:
    own = f"Host: 127.0.0.1:{server.server_port}\r\n"
    assert status(asked(server, "GET / HTTP/1.0\r\n\r\n")) == 421
    assert status(asked(server, f"GET / HTTP/1.1\r\n{own}Host: pins.example\r\n\r\n")) == 421
    assert PAGE not in asked(server, "GET /\r\n\r\n")


@pytest.mark.parametrize("path", ["http://pins.example/", "http://127.0.0.1/index.html", "index"])
def test_an_address_that_is_no_path_is_refused(server: SiteServer, path: str) -> None:
    assert status(get(server, path)) == 400


@pytest.mark.parametrize(
    "path",
    [
        "/worker.js",
        "/%77orker.js",
        "/worker%2Ejs",
        "/./worker.js",
        "//worker.js",
        "/x/../worker.js",
        "/worker.js?1",
        "/worker.js#a",
        "/%2e/worker.js",
        "/worker.js/",
    ],
)
def test_the_worker_is_found_under_no_spelling_of_its_path(server: SiteServer, path: str) -> None:
    for spelt in (path, f"/x/..{path}", f"/%2e{path}", f"{path}?1", f"{path}#a"):
        answer = get(server, spelt)
        assert status(answer) == 404, spelt
        assert "saves the site" not in answer


@pytest.mark.parametrize("path", ["/vehicles/", "/vehicles/?a", "/%76ehicles/"])
def test_no_folder_is_listed(server: SiteServer, path: str) -> None:
    answer = get(server, path)
    assert "a.html" not in answer and "Directory listing" not in answer
    assert status(answer) == 404


@pytest.mark.parametrize(
    "path",
    "/../secret.txt /%2e%2e/secret.txt /..%2fsecret.txt /vehicles/../../secret.txt /..%5csecret.txt"
    " /way-out.txt /.loombook-site /%2eloombook-site /index.html%00 /%ff /%ed%a0%80 //etc/passwd"
    f" /%2fetc/passwd /{'a' * 5000}".split(),
)
def test_nothing_outside_the_site_is_answered(server: SiteServer, path: str) -> None:
    answer = get(server, path)
    assert status(answer) == 404
    assert "secret" not in answer.partition("\r\n\r\n")[2] and "a mark" not in answer


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "get"])
def test_nothing_but_get_and_head_is_answered(server: SiteServer, method: str) -> None:
    answer = get(server, "/", method=method)
    assert status(answer) == 501 and PAGE not in answer


def test_head_is_answered_without_the_page(server: SiteServer) -> None:
    answer = get(server, "/index.html", method="HEAD")
    assert status(answer) == 200 and answer.endswith("\r\n\r\n")
    assert all(f"{name}: {value}\r\n" in answer for name, value in HEADERS)


def test_a_page_built_again_within_the_second_is_sent_again(server: SiteServer) -> None:
    first = get(server, "/index.html")
    day = next(line for line in first.split("\r\n") if line.startswith("Date: "))
    since = day.replace("Date", "If-Modified-Since")
    own = f"Host: 127.0.0.1:{server.server_port}\r\n"
    assert status(asked(server, f"GET /index.html HTTP/1.1\r\n{own}{since}\r\n\r\n")) == 200


def test_a_client_that_says_nothing_is_let_go(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert SiteHandler.timeout is not None
    monkeypatch.setattr(SiteHandler, "timeout", 0.3)
    for server in started(SiteServer(site)):
        begun = time.monotonic()
        assert asked(server, "") == ""
        assert asked(server, "GET / HTTP/1.1\r\nHo") == ""
        assert time.monotonic() - begun < 10


def test_a_client_that_sends_byte_by_byte_is_let_go(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(SiteServer, "whole_s", 0.2)
    for server in started(SiteServer(site)):
        begun = time.monotonic()
        with (
            socket.create_connection(("127.0.0.1", server.server_port), timeout=20) as client,
            pytest.raises(ConnectionError),
        ):
            for _ in range(200):
                client.sendall(b"X")
                time.sleep(0.05)
        assert time.monotonic() - begun < 10


def test_many_connections_are_bounded_and_given_back(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(site_server, "MOST_CONNECTIONS", 3)
    for server in started(SiteServer(site)):
        address = ("127.0.0.1", server.server_port)
        idle = [socket.create_connection(address, timeout=20) for _ in range(3)]
        until(server, lambda answer: answer == "")  # closed at once, and no thread made for it
        for client in idle:
            client.close()
        until(server, lambda answer: PAGE in answer)


def until(server: SiteServer, holds: Callable[[str], bool]) -> None:
    """Ask again, for up to ten seconds, until the answer is such."""
    end = time.monotonic() + 10
    while not holds(get(server, "/")):
        assert time.monotonic() < end
        time.sleep(0.02)


def test_a_server_that_answered_badly_says_nothing_on_the_terminal(
    server: SiteServer, capfd: pytest.CaptureFixture[str]
) -> None:
    get(server, "/index.html%00")
    asked(server, "\x00\x01\r\n\r\n")
    assert capfd.readouterr() == ("", "")
