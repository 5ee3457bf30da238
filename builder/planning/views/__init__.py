"""Sheets of a work pack as views of its circuit: none works out what the circuit knows."""
