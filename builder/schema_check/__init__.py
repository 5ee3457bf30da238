"""The shape of a record: yes or no in no time, and what to type when it is no."""

from builder.schema_check.catalogue import CATALOGUE
from builder.schema_check.checking import check_shape
from builder.schema_check.schemas import KINDS

__all__ = ["CATALOGUE", "KINDS", "check_shape"]
