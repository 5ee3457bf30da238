"""Fuses, conductors, drop, and what the supply can spare."""
