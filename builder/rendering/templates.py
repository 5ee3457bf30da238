"""The one Jinja environment: everything escaped, nothing undefined passes, compiled once."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from builder.data_files import templates_folder
from builder.figures import shown, span
from builder.rendering.compiled_templates import CompiledTemplates
from builder.rendering.pages.wording import coded, grade_class, grade_mark, in_quotes, unbroken
from builder.store import site_state


@lru_cache(maxsize=1)
def _environment() -> Environment:
    made = Environment(
        loader=FileSystemLoader(templates_folder() / "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        bytecode_cache=CompiledTemplates(site_state()),
    )
    made.filters |= {"shown": shown, "span": span}
    made.filters |= {"grade_class": grade_class, "grade_mark": grade_mark}
    made.filters |= {"unbroken": unbroken, "coded": coded}
    made.filters |= {"in_quotes": in_quotes}
    return made


@lru_cache(maxsize=64)
def _template(name: str) -> Template:
    return _environment().get_template(name)


def warm() -> None:
    """Compile every template now, so that forked processes share the work."""
    for name in _environment().list_templates(extensions=["html"]):
        _template(name)


def fill(name: str, **values: Any) -> Markup:
    """Return template `name` (a file of `site_templates/pages/`) filled with `values`.

    Text is escaped unless it is already `Markup`. Raises jinja2.UndefinedError for a name
    the template asks for and `values` does not hold.
    """
    return Markup(_template(name).render(values))  # escaped by the environment
