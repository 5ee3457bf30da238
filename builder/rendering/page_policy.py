"""What a browser may do with a page: the policy every page carries and a server sends.

A page loads its own site's scripts, styles, typeface and pictures and nothing else. No script
and no style stands inline, so none needs a hash, and text that slipped through every escape still
could not run. Over http the same policy as a header also forbids other sites to frame a page,
which a page cannot say of itself.
"""

from __future__ import annotations

_RULES = (
    ("default-src", "'none'"),
    ("script-src", "'self'"),
    ("style-src", "'self'"),
    ("img-src", "'self'"),
    ("font-src", "'self'"),
    ("connect-src", "'self'"),
    ("manifest-src", "'self'"),
    ("worker-src", "'self'"),
    ("frame-src", "'none'"),
    ("object-src", "'none'"),
    ("base-uri", "'none'"),
    ("form-action", "'none'"),
)
PAGE_POLICY = "; ".join(" ".join(rule) for rule in _RULES)
"""For the `meta` element of each page."""

SENT_POLICY = f"{PAGE_POLICY}; frame-ancestors 'none'"
"""For the header: what a `meta` element cannot say comes on top."""

HEADERS = (
    ("Content-Security-Policy", SENT_POLICY),
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Permissions-Policy", "camera=(), geolocation=(), microphone=()"),
)
"""Name and value of each header that whoever serves the site should send with every file."""


def header_lines() -> str:
    """Return the headers as text, one a line, for the settings of a server."""
    return "\n".join(f"{name}: {value}" for name, value in HEADERS)
