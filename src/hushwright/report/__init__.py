"""Evaluation and Verdicts as text and JSON.

Formats what was computed. Where a text tells how a number came about, or what to measure on the van, it asks the laws
of physics and the single steps of `evaluation` again for the numbers on the way; none of it is judged here.
"""
