"""Tests look at traced pictures; pages have the others. They differ in nothing that is seen."""

from __future__ import annotations

from itertools import chain
from xml.etree.ElementTree import Element, fromstring

import pytest
from wiring_samples import DRAWN_JOBS, drawn_job

from builder.rendering.drawings.wiring.pictures import Wiring, housings_of

TRACES = ("data-id", "data-open")


def drawings(wiring: Wiring) -> list[Element]:
    every = [wiring.signs, wiring.picture("it"), wiring.legend]
    every += [one.drawing for one in wiring.pieces]
    return [fromstring(markup) for markup in every]


def bare(element: Element) -> list[Element]:
    """An element without its traces; what stands in a group that says nothing in place of it."""
    for name in TRACES:
        element.attrib.pop(name, None)
    if element.get("class") == "lb-link":
        element.attrib.pop("class")
    element[:] = list(chain.from_iterable(bare(child) for child in element))
    kept = element.tag != "g" or element.attrib or element.findtext("title")
    return [element] if kept else list(element)


def plain(element: Element) -> tuple[object, ...]:
    text = (element.text or "", element.tail or "")
    return (element.tag, element.attrib, *text, *(plain(child) for child in element))


def traces(found: list[Element]) -> set[str]:
    return {key for one in found for each in one.iter() for key in each.attrib if key in TRACES}


@pytest.mark.parametrize("name", DRAWN_JOBS)
def test_a_page_has_what_tests_look_at_but_for_the_traces(name: str) -> None:
    circuit, parts = drawn_job(name)
    housings = housings_of(parts)
    shown, traced = (drawings(Wiring(circuit, housings, traced=each)) for each in (False, True))
    assert traces(shown) == set()
    assert traces(traced) == ({*TRACES} if circuit.open_ends else {"data-id"})
    for one, other in zip(shown, traced, strict=True):
        assert [plain(each) for each in bare(one)] == [plain(each) for each in bare(other)]
