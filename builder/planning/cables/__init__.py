"""Conductors in the cables of the book: allocation, laying, labels, cut lengths."""
