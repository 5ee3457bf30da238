"""Nets of circuits that differ in little are those that would be worked out of each by itself."""

from __future__ import annotations

import random
from itertools import pairwise

from comeback_jobs import causes_in

from builder.planning.circuit.bench import Bench
from builder.planning.circuit.nets import Nets
from builder.planning.circuit.partition import Partition
from builder.planning.comeback.condition import Condition

Ends = tuple[str, ...]


def alike(found: dict[str, str], nets: Nets, ends: list[str]) -> bool:
    return all(
        (found.get(one, one) == found.get(other, other)) == nets.together(one, other)
        for one in ends
        for other in ends
    )


def test_pieces_taken_out_and_put_in_give_what_all_of_them_give_anew() -> None:
    draw = random.Random(13)
    ends = [f"end {at}" for at in range(14)]
    for _ in range(300):
        pieces = [tuple(draw.sample(ends, draw.randint(1, 3))) for _ in range(draw.randint(1, 10))]
        partition: Partition[Ends] = Partition(pieces, lambda piece: piece)
        left = [each for each in pieces if draw.random() < 0.8]
        more = [tuple(draw.sample(ends, 2)) for _ in range(draw.randint(0, 2))]
        nets = Nets()
        for each in (*left, *more):
            nets.join(each)
        assert alike(dict(partition.of([*left, *more])), nets, ends)


def test_every_fault_of_a_job_is_joined_and_read_as_its_circuit_by_itself() -> None:
    causes = causes_in("dash-converter")
    sound = causes.job.healthy.sound
    for fault in (*causes.faults, *causes.while_joining[::7]):
        own, bench = Bench(fault.circuit, sound), Condition(causes.job.healthy, fault).day
        terminals = list(own.index.terminals)
        for one, other in pairwise(terminals):
            assert bench.joined(one, other) == own.joined(one, other), (fault.id, one, other)
        for one, other in zip(terminals[::3], terminals[1::3], strict=False):
            assert bench.ohms(one, other) == own.ohms(one, other), (fault.id, one, other)
