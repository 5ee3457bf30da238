"""The schema files of the kinds whose keys are declared."""

from __future__ import annotations

import json

from builder.declared_files.json_text import json_text
from builder.declared_files.lent_keys import lend_readings
from builder.declaring import Form, form_schema, schema_of, shared_name
from builder.model import car_forms, forms, loom_forms, plug_forms
from builder.model.kinds import DECLARED
from builder.model.locked_books import BookLock
from builder.model.plugs import Claim, Condition, Fuse, Reading
from builder.model.recorded import Replaces
from builder.model.recorded_figures import CurvePoint, RecordedFigure
from builder.model.recorded_sound import RecordedSound
from builder.model.recording_lead import RecordingLead
from builder.model.session import MeasuredCar, Meter
from builder.model.settings import FOLDER, BookSettings
from builder.model.wire import Wire
from builder.model.words import RecordKind

FORMS = tuple(
    each
    for module in (forms, plug_forms, car_forms, loom_forms)
    for each in vars(module).values()
    if isinstance(each, Form)
)
"""Forms that keys of several kinds have."""
SHARED = (
    *(Wire, Replaces, Fuse, Condition, MeasuredCar, Meter, Reading, Claim),
    *(RecordingLead, RecordedFigure, CurvePoint, RecordedSound),
)
"""Parts that records of several kinds hold."""

_HEAD = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
# No `$id`: the file's own address is its id, so that references lead to the files beside it.


def schema_file(kind: RecordKind) -> str:
    """Return the text of `schema/<kind>.schema.json`."""
    cls = DECLARED[kind]
    return json_text(_HEAD | {"title": cls.__name__} | schema_of(cls))


def book_file() -> str:
    """Return the schema of a book's settings; a book may leave all of them out."""
    schema = schema_of(BookSettings)
    schema["properties"]["roots"]["items"] = form_schema(FOLDER)
    del schema["minProperties"], schema["properties"]["house_defaults"]["minProperties"]
    return json_text(_HEAD | {"title": "Book"} | schema)


def lock_file() -> str:
    """Return the schema of the list of borrowed books."""
    schema = schema_of(BookLock)
    del schema["minProperties"]
    return json_text(_HEAD | {"title": "Lock"} | schema)


def defs_file(text: str) -> str:
    """Return the shared definitions, those that are declared as they are declared."""
    schema = json.loads(text)
    shared = schema["$defs"]
    for form in FORMS:
        shared[form.name] = form_schema(form)
    for cls in SHARED:
        name = shared_name(cls)
        shown = {"examples": shared[name]["examples"]} if "examples" in shared[name] else {}
        shared[name] = schema_of(cls, defs="") | shown
    lend_readings(shared)
    return json_text(schema)
