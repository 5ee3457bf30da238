"""Five sessions in a real terminal, on wires of the shipped book."""

from __future__ import annotations

import pytest
from identify_sessions import SKIP, WIRES, Terminal, Wire, in_a_terminal, readings_of
from shipped_book import PINOUTS

from builder.proof.identify.next_test import phrase_of


@pytest.mark.parametrize("wire", WIRES, ids=lambda wire: wire.function)
def test_a_session_names_the_wire_and_says_how_to_prove_it(wire: Wire) -> None:
    held, shown, code = in_a_terminal(wire)
    assert held.ended.startswith(f"DECIDED: {phrase_of(wire.function)}")  # type: ignore[arg-type]
    assert code == 0
    assert len(set(held.asked)) == len(held.asked)
    assert [one for one in held.answered if one != SKIP]
    assert "TO PROVE IT" in shown
    assert "House default" in shown
    for line in shown.splitlines():
        assert len(line) <= 100, line


def test_where_nothing_fits_it_says_so_and_undo_takes_the_wrong_reading_back() -> None:
    terminal = Terminal("identify", "--book", str(PINOUTS), "--battery", "12.6")
    terminal.until_asked()
    for line in ("run 12.3 V", "door open 0.0 V", "accessory 11.2 V", "retained 12.3 V"):
        terminal.type(line)
        shown = terminal.until_asked()
    assert "contradicted everywhere" in shown
    assert "it could be a retained supply" in " ".join(shown.split())
    assert "undo takes the last reading back" in shown
    terminal.type("undo")
    assert "retained supply" in terminal.until_asked()
    terminal.type("done")
    terminal.until_asked()
    assert terminal.close() in (0, 1)


def test_the_five_wires_are_five_functions_with_readings() -> None:
    assert len({wire.function for wire in WIRES}) == len(WIRES) == 5
    assert all(len(readings_of(wire)) >= 2 for wire in WIRES)
