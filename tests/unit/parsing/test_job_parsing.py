"""A job record becomes a typed job: words, unknowns and places."""

from __future__ import annotations

from pathlib import Path

from builder.loading import load_file
from builder.model.job import FactoryLead, Job, NewLead
from builder.parsing import parse_record

VALID = Path(__file__).parents[2] / "records" / "valid" / "job"


def job(name: str) -> Job:
    loaded = load_file(VALID / f"{name}.yaml", name)
    assert loaded.data is not None
    found = parse_record("job", loaded.data)
    assert isinstance(found, Job)
    return found


def test_auto_is_no_treatment_of_ones_own() -> None:
    assert job("small").treatment == {}
    assert job("everything").treatment == {
        "front-left": "intercept",
        "rear-left": "addon",
        "rear-right": "none",
    }


def test_unknown_and_left_out_are_none_in_figures_and_words_elsewhere() -> None:
    supply = job("everything").supply
    assert (supply.fuse_to_battery_m, supply.wake_hold_min) == (None, None)
    assert (supply.material, supply.ground_point, supply.size_awg) == ("unknown", "unknown", "1/0")
    assert job("small").supply.parked_ma is None
    assert [load.diode for load in job("everything").other_turn_on_loads] == ["unknown", "unknown"]


def test_a_speaker_keeps_its_leads_apart() -> None:
    (door,) = job("everything").speakers
    assert door.existing and door.overlap
    assert door.existing_lead == FactoryLead(length_m=4.5, size_mm2=0.5)
    assert door.lead == NewLead(length_m=3.0, size_awg="16")
    (sub,) = job("small").speakers
    assert not sub.existing and not sub.overlap
    assert (sub.existing_lead, sub.lead) == (None, NewLead(length_m=1.0))


def test_results_have_a_figure_or_a_word() -> None:
    figure, word = job("everything").results
    assert (figure.value, figure.passed) == (12.4, None)
    assert (word.value, word.passed, word.path) == (None, True, ("results", 1))


def test_parts_know_their_place_in_the_record() -> None:
    found = job("everything")
    assert found.amplifiers[1].path == ("amplifiers", 1)
    assert found.routes[0].path == ("routes", 0)
    assert found.accept[0].path == ("accept", 0)
    assert found.amplifier("amp 2") is found.amplifiers[1]
    assert found.amplifier("amp 3") is None


def test_it_is_a_record_like_the_others() -> None:
    loaded = load_file(VALID / "small.yaml", "small")
    assert loaded.data is not None
    assert parse_record("job", loaded.data) == job("small")
