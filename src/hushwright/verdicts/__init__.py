"""Verdicts: each target or limit with value, margin, uncertainty, basis, place and state."""
