"""A whole job: every part chosen, figured and packed."""
