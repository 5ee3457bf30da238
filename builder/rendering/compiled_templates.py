"""Templates as they were compiled before, kept beside their text as Python keeps modules."""

from __future__ import annotations

import hashlib
import os
import sys
from contextlib import suppress
from importlib.util import cache_from_source
from pathlib import Path

from jinja2 import BytecodeCache
from jinja2.bccache import Bucket

from builder.bounded_file import read_bounded

_MOST_BYTES = 4_000_000
"""The largest of ours takes a fiftieth of that."""
_SUM_BYTES = hashlib.sha256().digest_size


class CompiledTemplates(BytecodeCache):
    """Keeps what a template was compiled to in `__pycache__` beside it.

    What is kept is code, so it lies where code of this tool lies, and nowhere else: whoever can
    write there can write the tool. It counts for the same text and the same `state` of the tool,
    since constants of a template are worked out, with our filters, when it is compiled. Nothing
    is kept where nothing can be written, or where Python was told to keep no code; what was
    damaged or half written does not have its sum, and is compiled anew.
    """

    def __init__(self, state: str) -> None:
        self._state = state

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        """Where the code of a template is kept."""
        return cache_from_source(filename or name)

    def get_source_checksum(self, source: str) -> str:
        """What differs whenever the text or the tool does."""
        return hashlib.sha256(f"{self._state}\n{source}".encode()).hexdigest()

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill `bucket` with what is kept, if it is whole; its own sums say whether it counts."""
        with suppress(OSError):
            held = read_bounded(Path(bucket.key), _MOST_BYTES)
            told, code = held[:_SUM_BYTES], held[_SUM_BYTES:]
            if told == hashlib.sha256(code).digest():
                bucket.bytecode_from_string(code)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled, if that may be."""
        if sys.dont_write_bytecode:
            return
        code, file = bucket.bytecode_to_string(), Path(bucket.key)
        new = file.with_name(f"{file.name}.{os.getpid()}")  # as Python writes its own
        with suppress(OSError):
            file.parent.mkdir(parents=True, exist_ok=True)
            new.write_bytes(hashlib.sha256(code).digest() + code)
            new.replace(file)
