"""Speaker leads and loads."""

from __future__ import annotations

import pytest
from vector_reading import groups

from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.speaker_leads import (
    LeadDemand,
    choose_lead,
    judge_lead,
    lead_loss_db,
    lead_ohm,
)
from builder.planning.levels.speaker_loads import side_by_side_ohm, stand_in_load
from builder.planning.power.conductors import awg, choice_awg, choice_mm2
from builder.proof.band import where_in
from builder.proof.signatures.nominal import pair_band
from builder.proof.signatures.shapes import Nominal

LEADS = groups("speaker_leads")
HOUSE = HouseDefaults()
NO_LEADS = HouseDefaults(speaker_leads_ohm=0)


@pytest.mark.parametrize(
    ("size", "length", "ohm", "watts", "use", "wire", "loss", "damping", "music"),
    LEADS["leads"]["cases"],
)
def test_leads(
    size: str,
    length: float,
    ohm: float,
    watts: float,
    use: str,
    wire: float,
    loss: float,
    damping: float | None,
    music: float | None,
) -> None:
    lead = judge_lead(LeadDemand(ohm, watts, length, use), awg(size), HOUSE)
    assert lead.wire_ohm == pytest.approx(wire, abs=0.0005)
    assert lead.added_loss_db == pytest.approx(loss, abs=0.005)
    if damping is not None:
        assert lead.damping == pytest.approx(damping, abs=0.05)
    if music is not None:
        assert lead.music_a_rms == pytest.approx(music, abs=0.05)


@pytest.mark.parametrize(("size", "length", "ohm", "watts", "use"), LEADS["leads"]["refused"])
def test_impossible_leads(size: str, length: float, ohm: float, watts: float, use: str) -> None:
    with pytest.raises(ValueError, match=r"positive|negative|door or a sub"):
        judge_lead(LeadDemand(ohm, watts, length, use), awg(size), HOUSE)


def test_existing_wiring_is_shown_apart() -> None:
    existing = lead_ohm(4.5, awg("20"), HOUSE)
    assert existing == pytest.approx(0.300, abs=0.0005)
    lead = judge_lead(LeadDemand(4, 50, 4.6, "door", existing), awg("18"), HOUSE)
    assert lead.added_loss_db == pytest.approx(-0.41, abs=0.005)
    assert lead.existing_loss_db == pytest.approx(-0.63, abs=0.005)
    assert lead.whole_loss_db == pytest.approx(-1.01, abs=0.005)
    assert not lead.flags


def test_a_sub_lead_is_chosen_by_every_limit() -> None:
    lead, refused = choose_lead(LeadDemand(1, 1000, 1.0, "sub"), choice_awg(), HOUSE)
    assert lead.conductor == awg("10")
    why = {thin.conductor.size_awg: [flag.kind for flag in thin.flags] for thin in refused}
    assert "current" in why["16"] and why["12"] == ["damping"]
    metric, _ = choose_lead(LeadDemand(1, 1000, 1.0, "sub"), choice_mm2(), HOUSE)
    assert not metric.flags


def test_a_lead_that_costs_too_much() -> None:
    lead = judge_lead(LeadDemand(4, 50, 7.0, "door"), awg("18"), HOUSE)
    (flag,) = lead.flags
    assert flag.kind == "loss" and flag.value == pytest.approx(-lead.added_loss_db)
    worst, _ = choose_lead(LeadDemand(1, 1000, 30, "sub"), choice_awg()[:3], HOUSE)
    assert worst.conductor == awg("18") and worst.flags


def test_no_wire_costs_nothing() -> None:
    assert lead_loss_db(4, 0) == 0
    with pytest.raises(ValueError, match="negative"):
        lead_loss_db(4, -0.1)


def test_a_lead_of_no_length_costs_nothing() -> None:
    lead = judge_lead(LeadDemand(4, 50, 0, "door"), awg("18"), HOUSE)
    assert lead.wire_ohm == 0 and lead.added_loss_db == 0
    assert lead.damping == pytest.approx(4 / HOUSE.amplifier_output_ohm)


@pytest.mark.parametrize(("reading", "nominals"), LEADS["nominal"]["cases"])
def test_every_nominal_that_fits(reading: float, nominals: list[float]) -> None:
    # The cases are readings at the speaker itself: the house's allowance for leads is left out.
    bands = {ohm: pair_band(Nominal(ohm, shared=False), NO_LEADS) for ohm in (1, 2, 3, 4, 6, 8)}
    assert [ohm for ohm, band in bands.items() if where_in(band, reading, None) == "in"] == nominals


def test_coils() -> None:
    assert side_by_side_ohm([4, 4]) == pytest.approx(2)
    assert side_by_side_ohm([4, 2]) == pytest.approx(4 / 3)
    with pytest.raises(ValueError, match="no voice coil"):
        side_by_side_ohm([])


def test_a_stand_in_load() -> None:
    resistor = stand_in_load(8.944, 47)
    assert resistor.sine_w == pytest.approx(1.70, abs=0.005)
    assert resistor.square_w == pytest.approx(3.40, abs=0.005)
    # A hard-clipped 12.9 V square is 3.54 W, within the same 5 W part.
    assert pytest.approx(3.54, abs=0.005) == 12.9**2 / 47
    assert max(resistor.rating_w, 12.9**2 / 47) < 5
