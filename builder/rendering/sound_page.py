"""A page of its own about a recording: what was said of it, drawings, and the same as tables."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup, escape

from builder.rendering.drawings.plots import Plot
from builder.rendering.drawings.sound_plots import sound_plots
from builder.rendering.styles import drawing_style
from builder.sound.reading import SoundFacts

_HEAD = Markup(
    '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">\n'
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    "<title>{title}</title>\n<style>\n"
    "body {{ font: 16px/1.4 sans-serif; max-width: 60rem; margin: 1rem auto; padding: 0 1rem; }}\n"
    "svg {{ max-width: 100%; height: auto; }}\n"
    "pre {{ white-space: pre-wrap; }}\n"
    "table {{ border-collapse: collapse; }}\n"
    "td, th {{ border: 1px solid; padding: 0.1rem 0.5rem; text-align: right; }}\n"
    "@media print {{ section {{ break-inside: avoid; }} }}\n"
    "{style}</style></head>\n<body>\n<h1>{title}</h1>\n"
)


def sound_page(facts: SoundFacts, title: str, lines: Iterable[str]) -> str:
    """Return a page with what is said in lines, each plot and its table; it needs no other file."""
    parts = [_HEAD.format(title=title, style=Markup(drawing_style()))]
    parts += [_section(plot) for plot in sound_plots(facts)]
    parts.append(Markup("<h2>In words</h2>\n<pre>{}</pre>\n").format("\n".join(lines)))
    return str(Markup("").join([*parts, Markup("</body></html>\n")]))


def _section(plot: Plot) -> Markup:
    heads = Markup("").join(Markup('<th scope="col">{}</th> ').format(h) for h in plot.heads)
    rows = Markup("\n").join(
        Markup("<tr>{}</tr>").format(
            Markup(" ").join(Markup("<td>{}</td>").format(cell) for cell in row)
        )
        for row in plot.rows
    )
    return Markup(
        "<section><h2>{}</h2>\n{}\n</section>\n<details><summary>As a table</summary>\n"
        "<table><tr>{}</tr>\n{}\n</table></details>\n"
    ).format(escape(plot.title), plot.drawing, heads, rows)
