"""A car that comes back: what single fault would do that, and which reading tells it apart."""
