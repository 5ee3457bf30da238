"""The interview of `new` as data: what was answered, what is asked next, what a line says.

Nothing here talks or touches a file: `cli/prompting.py` asks, `pipeline/changing/kept_drafts.py`
keeps the draft.
"""
