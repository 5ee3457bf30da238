"""loombook: records of radio-connector pins, proved by readings, made into plans and pages."""

__version__ = "0.1.0"
