"""The faces of a plug: which was counted, and what a count of the other face means."""
