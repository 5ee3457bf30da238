"""The policy of pages and server, and the page for addresses that lead nowhere."""

from __future__ import annotations

import threading
import urllib.error
import urllib.request
from pathlib import Path

import pytest
from page_samples import INFO, Tags

from builder.cli.site_server import SiteServer
from builder.model.house_defaults import HouseDefaults
from builder.rendering.handbook import fill_in
from builder.rendering.missing import from_root, missing_page
from builder.rendering.page_policy import HEADERS, PAGE_POLICY, SENT_POLICY, header_lines

RULES = dict(rule.split(" ", 1) for rule in PAGE_POLICY.split("; "))


def test_everything_is_forbidden_but_what_the_site_itself_holds() -> None:
    assert RULES["default-src"] == "'none'"
    assert set(RULES.values()) == {"'none'", "'self'"}
    for never in ("frame-src", "object-src", "base-uri", "form-action"):
        assert RULES[never] == "'none'"
    assert f"{PAGE_POLICY}; frame-ancestors 'none'" == SENT_POLICY


def test_the_handbook_prints_the_headers_word_for_word() -> None:
    page = fill_in("before\n\n<!-- headers -->\n\nafter", HouseDefaults())
    assert [line.strip() for line in page.splitlines()][2:-2] == header_lines().splitlines()
    assert len(header_lines().splitlines()) == len(HEADERS)


def test_serve_sends_the_headers_with_every_file_and_with_what_is_not_there(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("<!doctype html><title>x</title>", "utf-8")
    server = SiteServer(tmp_path)
    threading.Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
    start = f"http://127.0.0.1:{server.server_port}"
    try:
        with urllib.request.urlopen(f"{start}/index.html") as answer:
            assert {name: answer.headers[name] for name, _ in HEADERS} == dict(HEADERS)
        with pytest.raises(urllib.error.HTTPError) as missing:
            urllib.request.urlopen(f"{start}/gone.html")
        assert missing.value.code == 404
        assert missing.value.headers["Content-Security-Policy"] == SENT_POLICY
    finally:
        server.shutdown()


@pytest.mark.parametrize(
    ("address", "root"),
    [("", "/"), ("https://pins.example", "/"), ("https://pins.example/shop/book/", "/shop/book/")],
)
def test_the_page_for_a_missing_address_leads_home_from_any_depth(address: str, root: str) -> None:
    document = "".join(("<main>", missing_page(INFO).body_html, "</main>"))
    body = from_root(document, address)
    links = [value for name, value in Tags(body).values if name == "href"]
    assert f"{root}index.html" in links
    assert all(link.startswith(root) for link in links)


def test_other_addresses_stay_as_they_are() -> None:
    kept = '<a href="#x">x</a> <a href="https://a.example/">a</a> <a href="/b">b</a>'
    assert from_root(kept, "https://pins.example/book/") == kept
