"""Predictions beside published measurements: ``python -m tools.accuracy`` writes docs/accuracy.md."""
