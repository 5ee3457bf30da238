"""The link check: what it must catch, and what it must leave alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from site_folder import check_folder

from builder.rendering.links import BadLink, page_links, style_faults
from builder.rendering.site_links import SiteLinks, together

FILES = ["index.html", "vehicles/a.html", "vehicles/b.html", "assets/x.css"]


def check(body: str, url: str = "vehicles/a.html") -> list[BadLink]:
    """The bad links of a page beside another: the same, whether both are written together."""
    pages = [page_links(url, body), page_links("vehicles/b.html", '<p id="pin-A-1">x</p>')]
    apart, joined = SiteLinks(), SiteLinks()
    for page in pages:
        apart.take_in(together([page]))
    joined.take_in(together(pages))
    assert apart.bad(FILES) == joined.bad(FILES) and apart.pages == joined.pages == 2
    return joined.bad(FILES)


@pytest.mark.parametrize(
    "body",
    [
        '<a href="b.html">x</a>',
        '<a href="b.html#pin-A-1">x</a>',
        '<p id="here">x</p> <a href="#here">x</a>',
        '<a href="../index.html">x</a> <link href="../assets/x.css">',
        '<a href="https://example.org/standard">x</a>',
        "<p>a/b//c and javascript: are only words here</p>",
        "<p>&#34; href=&#34;gone.html&#34;</p>",
        '<meta name="description" content="&lt;link href=https://example.org/x.css&gt;">',
    ],
)
def test_good_links_pass(body: str) -> None:
    assert check(body) == []


@pytest.mark.parametrize(
    ("body", "message"),
    [
        ('<a href="gone.html">x</a>', "leads to a file that is not there"),
        ('<a href="b.html#pin-A-2">x</a>', "names a fragment that is not on that page"),
        ('<a href="#nowhere">x</a>', "names a fragment that is not on that page"),
        ('<a href="../../etc.html">x</a>', "leads out of the site"),
        ('<a href="/index.html">x</a>', "leads out of the site"),
        ('<script src="gone.js"></script>', "leads to a file that is not there"),
        ('<script src="https://cdn.example/x.js"></script>', "leads to another origin or scheme"),
        ('<link rel="x" href="//cdn.example/x.css">', "leads to another origin or scheme"),
        ('<img alt="" src="http://example.org/x.png">', "leads to another origin or scheme"),
        ('<a href="javascript:alert(1)">x</a>', "leads to another origin or scheme"),
        ('<a href="java&#115;cript:alert(1)">x</a>', "leads to another origin or scheme"),
        ('<a href="data:text/html,x">x</a>', "leads to another origin or scheme"),
        ("<img src='https://example.org/x.png'>", "leads to another origin or scheme"),
        ('<img srcset="https://example.org/x.png 2x">', "leads to another origin or scheme"),
        ('<form action="https://example.org/"></form>', "leads to another origin or scheme"),
    ],
)
def test_bad_links_are_caught(body: str, message: str) -> None:
    assert [bad.message for bad in check(body)] == [message]


def test_what_several_pages_ask_for_is_kept_once() -> None:
    pages = [page_links(f"plans/{n}.html", '<a href="../gone.html">x</a>') for n in "abc"]
    assert list(together(pages).asked) == [("plans/a.html", ("../gone.html",))]


def test_a_target_counts_in_each_folder_anew() -> None:
    links = SiteLinks()
    body = '<a href="b.html">x</a>'
    links.take_in(together([page_links(f"{n}/a.html", body) for n in ("vehicles", "plans")]))
    assert [bad.page for bad in links.bad(FILES)] == ["plans/a.html"]


def test_style_sheets_may_not_ask_another_origin() -> None:
    assert style_faults("x.css", 'a{background:url("data:image/png;base64,xx")}') == []
    assert style_faults("x.css", "a{background:url(mark.svg)}") == []
    assert len(style_faults("x.css", "a{background:url(https://example.org/x.png)}")) == 1
    assert len(style_faults("x.css", '@import "https://example.org/x.css";')) == 1


def test_a_folder_is_checked_whole(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text('<a href="a/b.html">x</a>', "utf-8")
    (tmp_path / "x.css").write_text("a{background:url(//example.org/x)}", "utf-8")
    found = [(bad.page, bad.target) for bad in check_folder(tmp_path)]
    assert found == [("index.html", "a/b.html"), ("x.css", "//example.org/x")]
