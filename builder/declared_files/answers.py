"""The schema of a work pack and of the plan in it, as commands and data files give them away.

Every key of an answer is there, null where nothing is known; its words are those of its type.
What the rules find stands in the file by hand.
"""

from __future__ import annotations

import json
import re

from builder.declared_files.json_text import json_text
from builder.declared_files.schemas import FORMS
from builder.declaring import Field, fields_of
from builder.declaring.schema import TYPES, Schema
from builder.planning import pack_details, plan, sheet_rows, tune_sheet, work_pack
from builder.planning.circuit import model as circuit
from builder.planning.harness import rows as harness
from builder.planning.job import recalled, standing
from builder.planning.job.pack_json import OF_A_CHAIN, OF_A_READING

_PARTS = (
    plan.Plan, plan.Reason, plan.Feed, plan.Insulated, plan.SuppliedAt, plan.TurnOn, plan.Rung,
    plan.LevelCheck, plan.ProofReading, pack_details.LevelRung, pack_details.TurnOnDraw,
    pack_details.HoldUpPart, pack_details.PackFlag, pack_details.SupplyRun, pack_details.PowerSheet,
    sheet_rows.ConductorRow, sheet_rows.WiringRow, sheet_rows.JointRow, sheet_rows.CutRow,
    sheet_rows.Label,
    sheet_rows.SpeakerLead, sheet_rows.Stands, sheet_rows.Step, sheet_rows.PartLine,
    circuit.Circuit, circuit.Unit, circuit.Terminal, circuit.CircuitWire, circuit.Element,
    circuit.Joint, circuit.Link, circuit.OpenEnd, tune_sheet.HeldBack, tune_sheet.EqualiserPoint,
    tune_sheet.TuneRow,
    harness.LoomSheet, harness.LoomWireRow, harness.LoomJointRow, harness.LoomCableRow,
    harness.LoomNeed,
    harness.RingOutRow, recalled.Recall, standing.JobStanding,
)  # fmt: skip
_WORDS = {tuple(form.means): form.name for form in FORMS if form.means}


def work_pack_file(text: str) -> str:
    """Return the schema of a work pack; `text` is what it was, with its head and its findings."""
    was = json.loads(text)
    found = {"readings": _keys(plan.Plan)["tests"], "findings": was["properties"]["findings"]}
    pack = _closed(was["description"], _keys(plan.Plan) | _keys(work_pack.WorkPack) | found)
    pack["properties"]["standing"] = {  # of a job of the book; a pack by itself has none
        "$ref": "#/$defs/job_standing", "description": "How far the job is.",
    }  # fmt: skip
    parts = {_name(cls): _closed(_first_line(cls), _keys(cls)) for cls in _PARTS}
    defs = {**parts, **_joined(), "finding": was["$defs"]["finding"]}
    return json_text({"$schema": was["$schema"], "title": was["title"], **pack, "$defs": defs})


def _joined() -> dict[str, Schema]:
    """What `pack_as_json` puts together of two: a source, a gain, a line of the bay sheet."""
    chain, gain, test = pack_details.LevelChain, pack_details.GainSetting, work_pack.BayTest
    played = _keys(plan.LevelCheck) | _keys(chain, OF_A_CHAIN)
    asked = _keys(test) | _keys(plan.ProofReading, OF_A_READING)
    joined = {chain: played, gain: _keys(gain) | _keys(chain), test: asked}
    return {_name(cls): _closed(_first_line(cls), keys) for cls, keys in joined.items()}


def _closed(description: str, keys: dict[str, Schema]) -> Schema:
    said: Schema = {"type": "object", "description": description, "required": list(keys)}
    return {**said, "additionalProperties": False, "properties": keys}


def _keys(cls: type, lent: tuple[str, ...] = ()) -> dict[str, Schema]:
    """The keys of an answer; of those lent to another only these, each null where it has none."""
    keys = [each for each in fields_of(cls) if not lent or each.key in lent]
    return {each.key: _key(each, nullable=bool(lent) or each.nullable) for each in keys}


def _key(each: Field, *, nullable: bool) -> Schema:
    spec, kind = each.spec, _kind(each)
    if nullable and kind.keys() == {"type"}:
        kind = {"type": [kind["type"], "null"]}
    elif nullable:
        kind = {"anyOf": [{"type": "null"}, kind]}
    said = {"description": spec.description or _first_line(each.inner)}
    unit = {} if spec.form or each.scalar not in (int, float) else {"unit": spec.unit}
    form = dict(spec.form.schema) if spec.form else {}
    examples = {"examples": list(spec.examples)} if spec.examples else {}
    return {**kind, **said, **unit, **form, **spec.limits, **examples}


def _kind(each: Field) -> Schema:
    """What a value is; a list of words that records have too is that of `defs.schema.json`."""
    if each.item:
        return {"type": "array", "items": _kind(each.item)}
    if each.inner:
        return {"$ref": f"#/$defs/{_name(each.inner)}"}
    if each.words in _WORDS:
        return {"$ref": f"defs.schema.json#/$defs/{_WORDS[each.words]}"}
    words = {"enum": list(each.words)} if each.words else {}
    return {"type": TYPES[each.scalar or str], **words}


def _name(cls: type) -> str:
    return re.sub(r"(?<!^)(?=[A-Z])", "_", cls.__name__).lower()


def _first_line(cls: type | None) -> str:
    return " ".join((cls.__doc__ or "").partition("\n\n")[0].split())
