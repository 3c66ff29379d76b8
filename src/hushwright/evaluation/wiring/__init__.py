"""Wiring and signals: circuits, lines, their ways and what they pass."""
