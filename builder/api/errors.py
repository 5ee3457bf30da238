"""What can go wrong when a program asks. Each error's text is a sentence that says what to type."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from builder.api.answers import Finding
from builder.api.shaping import finding_of
from builder.book import BookNotFoundError
from builder.pipeline.answers import answering
from builder.planning.job import sketch_job


class LoombookError(Exception):
    """What every error of this interface is."""


class NoBookError(LoombookError):
    """The folder holds no book."""


class NoSuchRecordError(LoombookError):
    """No record has that name, or several could be meant."""


class CannotSketchError(LoombookError):
    """The amplifiers cannot do what was asked of them."""


class RefusedRecordError(LoombookError):
    """The record is there and cannot be used; `findings` say why, the gravest first."""

    def __init__(self, sentence: str, findings: tuple[Finding, ...]) -> None:
        super().__init__(sentence)
        self.findings = findings


@contextmanager
def told_as_ours() -> Iterator[None]:
    """Raise the errors of this interface in the place of those from inside."""
    try:
        yield
    except BookNotFoundError as error:
        raise NoBookError(str(error)) from error
    except answering.RefusedRecordError as error:
        found = tuple(map(finding_of, error.findings))
        raise RefusedRecordError(str(error), found) from error
    except answering.NoSuchRecordError as error:
        raise NoSuchRecordError(str(error)) from error
    except sketch_job.CannotSketchError as error:
        raise CannotSketchError(str(error)) from error
