"""Evaluation and Verdicts as text and JSON; formats what was computed, never computes."""
