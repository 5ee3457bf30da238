"""The catalogue: one file for each rule, an explicit registry, and the page made from each file."""
