"""Hushwright: one build file of a special-purpose van in, verdicts out."""
