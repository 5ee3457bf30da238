"""The one path from files to answers: load, check shape, parse, rules, plan, render.

Rules and plans are pure; this package brings them files, turns data paths into places in
files, and decides with both in hand whether a plan may stand.
"""
