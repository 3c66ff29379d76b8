"""One way of drawing examples everywhere: the same ones in every run, and no clock in the judgement."""

from hypothesis import settings

# Two cores shared by two workers make single examples slow now and then; that says nothing about the code.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")
