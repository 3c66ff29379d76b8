"""One way of drawing examples everywhere: the same ones in every run, and no clock in the judgement."""

import os

from hypothesis import settings

# As the command line does: small matrices, and two workers on two cores.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# Two cores shared by two workers make single examples slow now and then; that says nothing about the code.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")
