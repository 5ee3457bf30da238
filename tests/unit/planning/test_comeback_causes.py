"""Which single faults make a line of the bay sheet fail, against what the sheet itself foretells.

What a line notices was written for the work, before anybody asked which fault it could be: both
have to say the same of every joint, wire, fuse and pair of legs.
"""

from __future__ import annotations

import pytest
from comeback_jobs import TAP_PLANS, causes_in

from builder.planning.bay.foretold import notices
from builder.planning.circuit.bench import Bench
from builder.planning.comeback.causes import Causes
from builder.planning.comeback.symptoms import symptoms_of
from builder.planning.comeback.words import SYMPTOMS

IN_THE_CIRCUIT = ("open", "fuse", "changed_over")
UNDECIDED = (
    "before", "strap", "lamps", "ends-closed-off", "pairs-apart", "heat", "radio-home",
    "emergency-call",
    "cancellation", "restart-dip", "turn-on-restart", "turn-on-key-off", "return-ohms", "pad-ohms",
    "padded-bias", "padded-level", "after-", "loom-a-fuses", "held", "-travel", "-at-corner",
    "loudest-clean-step", "second-battery-rest", "second-battery-charging",
)  # fmt: skip
"""Parts of the ids of lines that no joint decides: the car as it came, looks, what a part is set
to, a pair behind a capacitor, links of wire left in a holder, sounds of speakers left alone, what
holds devices, where seats slide, what is louder, which volume is clean, what a second battery
holds and takes."""


@pytest.mark.parametrize("name", TAP_PLANS)
def test_a_healthy_job_passes_every_line_and_has_no_symptom(name: str) -> None:
    causes = causes_in(name)
    failing = [line for line, look in causes.looks.items() if look(causes.job.whole) != "in"]
    assert failing == []
    assert symptoms_of(causes.job, causes.job.whole) == frozenset()


@pytest.mark.parametrize("name", TAP_PLANS)
def test_every_line_has_causes_or_a_reason_for_having_none(name: str) -> None:
    causes = causes_in(name)
    tests = causes.job.pack.tests
    lines = [test.id for test in tests if test.turn not in ("proof", "proof_dead")]
    silent = [line for line in lines if not causes.of(line)]
    assert [line for line in silent if not any(part in line for part in UNDECIDED)] == []


def missed(causes: Causes) -> list[tuple[str, str]]:
    """What the sheet notices of a fault in the circuit, and the causes of the line do not say."""
    job = causes.job
    healthy = Bench(job.circuit, job.healthy.sound)
    found = []
    for fault in causes.faults:
        if fault.kind in IN_THE_CIRCUIT:
            faulty = Bench(fault.circuit, job.healthy.sound)
            for test in job.pack.tests:
                look = causes.looks.get(test.id)
                if look is None or not test.probes or "hold-up" in fault.id + test.id:
                    continue
                if notices(test, healthy, faulty) and look(causes.standing[fault.id]) == "in":
                    found.append((test.id, fault.id))
    return found


@pytest.mark.parametrize(
    "name", ["dash-converter", "lovage-mid-subwoofer", "rook-second-battery", "tarn-subwoofer",
             "teasel-four-doors", "tansy-two-coils"],
)  # fmt: skip
def test_what_a_line_notices_is_among_its_causes(name: str) -> None:
    assert missed(causes_in(name)) == []


def test_a_turn_on_that_is_dead_has_the_fuse_of_its_tap_among_its_causes_and_no_speaker() -> None:
    found = causes_in("tansy-subwoofer").of("sub-amp-turn-on-radio-on")
    assert "open fuse of the turn-on at A.7" in [fault.id for fault in found]
    assert not [fault for fault in found if "subwoofer" in fault.at]
    assert [fault.odds for fault in found] == sorted((f.odds for f in found), reverse=True)


def test_each_symptom_is_made_by_some_fault_of_some_job() -> None:
    made = set()
    for name in ("cutter-fronts", "tansy-subwoofer", "teasel-subwoofer"):
        causes = causes_in(name)
        for standing in causes.standing.values():
            made |= symptoms_of(causes.job, standing)
    assert made == set(SYMPTOMS)
