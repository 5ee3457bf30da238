"""Which pins make a pair: one answer for planner, rules, proof, finder and bay sheets."""

from __future__ import annotations

import ast
from dataclasses import replace

from builder_code import name_of, nodes
from proof_cars import pin, speaker, vehicle

from builder.model.legs import is_other_leg, legs_of_pairs, other_legs

PLUS, MINUS = speaker("1", "positive"), speaker("2", "negative")
LINE = pin("3", "line", channel="front-left", leg="negative")


def test_legs_go_by_function_channel_and_unit() -> None:
    lone = speaker("4", "negative", channel="rear-left")
    car = vehicle(PLUS, LINE, lone, MINUS)
    amplifier = replace(car.plugs[0], id="B", unit="amplifier")
    car = replace(car, plugs=(*car.plugs, amplifier))
    found = legs_of_pairs(car)
    assert list(found)[:3] == [
        ("speaker", "front-left", "radio"),
        ("line", "front-left", "radio"),
        ("speaker", "rear-left", "radio"),
    ]
    pair = found["speaker", "front-left", "radio"]
    assert [(plug.id, leg.cavity) for leg in pair.values() for plug, leg in leg] == [
        ("A", "1"),
        ("A", "2"),
    ]
    assert set(found["speaker", "rear-left", "radio"]) == {"negative"}
    assert [(plug.id, leg.cavity) for plug, leg in other_legs(PLUS, car.plugs)] == [
        ("A", "2"),
        ("B", "2"),
    ]


def test_a_line_of_the_same_channel_is_no_other_leg_of_a_speaker() -> None:
    assert is_other_leg(PLUS, MINUS) and is_other_leg(MINUS, PLUS)
    assert not is_other_leg(PLUS, LINE)
    assert not is_other_leg(PLUS, replace(PLUS, cavity="9"))


def test_nothing_else_compares_legs() -> None:
    """Raw tables, which are read before there are pins, and drawings of a plan's feeds aside."""
    found = {
        name_of(path)
        for path, node in nodes()
        if isinstance(node, ast.Compare)
        and isinstance(node.ops[0], ast.NotEq)
        and any(
            isinstance(side, ast.Attribute) and side.attr == "leg"
            for side in (node.left, *node.comparators)
        )
        and all(isinstance(side, ast.Attribute) for side in (node.left, *node.comparators))
    }
    assert found == {"model/legs.py"}
