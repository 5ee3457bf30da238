"""Commands that write records: new, import, fix, format, evidence add, start."""
