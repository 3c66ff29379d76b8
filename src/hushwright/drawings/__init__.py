"""Drawings of a build: primitives in metres, and what they are written as; no verdict depends on them."""
