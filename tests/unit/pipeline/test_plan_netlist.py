"""`loombook plan JOB --format spice`: the netlist of a tap plan, one sentence for anything else."""

from __future__ import annotations

from shipped_book import loombook


def test_a_tap_plan_is_printed_as_its_netlist() -> None:
    told = loombook("plan", "tansy-subwoofer", "--format", "spice")
    assert told.exit_code == 0
    lines = told.stdout.splitlines()
    assert lines[0] == "loombook: tansy-subwoofer, the circuit of the finished job"
    assert lines[-1] == ".end" and '* terminal "battery −" is 0' in lines


def test_a_sketched_job_has_one_too() -> None:
    told = loombook("plan", "ostrel-tansy-2017-hatch-base", "-c", "cvn-2a", "-a", "amn-600",
                    "--format", "spice")  # fmt: skip
    kind = loombook("plan", "ostrel-tansy-2017-hatch-base", "-c", "cvn-2a", "-a", "amn-600")
    assert told.exit_code == kind.exit_code
    assert (told.stdout[-5:] == ".end\n") == (kind.exit_code == 0)


def test_without_a_circuit_it_says_so() -> None:
    probe = loombook("plan", "ullin-split-fronts", "--format", "spice")
    assert (probe.exit_code, probe.stdout) == (1, "")
    assert probe.stderr == (
        "Error: ullin-split-fronts comes to a probe plan, and only a tap plan has a circuit, "
        "which is what a netlist is made of. The same command without --format spice says what is "
        "missing\n"
    )


def test_a_vehicle_with_a_converter_is_no_job() -> None:
    told = loombook("plan", "ostrel-tansy-2017-hatch-base", "-c", "cvn-2a", "--format", "spice")
    assert (told.exit_code, told.stdout) == (1, "")
    assert "name one, or add --amplifier" in told.stderr


def test_other_commands_offer_no_netlist() -> None:
    assert loombook("show", "ostrel-tansy-2017-hatch-base", "--format", "spice").exit_code == 2
