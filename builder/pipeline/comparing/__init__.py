"""What changed between two books, in words."""
