"""The bay sheet of a job: what is measured when, and the band computed for this car."""

from __future__ import annotations

from builder.planning.bay.before_tests import before_tests, key_off_lines, restart_line
from builder.planning.bay.bench_tests import bench_tests
from builder.planning.bay.build_tests import build_tests
from builder.planning.bay.close_tests import close_tests, probe_close_tests
from builder.planning.bay.ground_tests import ground_tests
from builder.planning.bay.ids import numbered
from builder.planning.bay.insulation_tests import tapped_tests
from builder.planning.bay.line import proof_line
from builder.planning.bay.loom_tests import fuse_lines, passed_on_lines, ring_out_lines
from builder.planning.bay.work import BayWork
from builder.planning.car.kept_sounds import microphones_out
from builder.planning.circuit.model import Circuit
from builder.planning.plan import ProofReading
from builder.planning.work_pack import BayTest


def bay_sheet(work: BayWork, circuit: Circuit) -> tuple[BayTest, ...]:
    """Return every line in the order of the work."""
    return numbered((
        *ring_out_lines(work.looms),
        *before_tests(work),
        *(proof_line(reading) for reading in work.plan.tests),
        *restart_line(work),
        *key_off_lines(work),
        *ground_tests(work),
        *build_tests(work),
        *fuse_lines(work.looms),
        *tapped_tests(circuit),
        *bench_tests(work, circuit),
        *passed_on_lines(work.looms),
        *close_tests(
            work.parts, work.plan.turn_on, work.defaults,
            cancelling=not microphones_out(work.parts.vehicle, work.selection),
        ),
    ))  # fmt: skip


def probe_sheet(work: BayWork, readings: tuple[ProofReading, ...]) -> tuple[BayTest, ...]:
    """Return the sheet of a job that measures first: the car as it is, the open readings, the car
    as it is left."""
    asked = (proof_line(each) for each in readings)
    return numbered((*before_tests(work), *asked, *probe_close_tests(work.parts)))
