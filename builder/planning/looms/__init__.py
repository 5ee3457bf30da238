"""What a loom joins, what its plugs mate with, and how it is rung out."""
