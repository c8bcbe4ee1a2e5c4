"""Shared by all tests."""

from __future__ import annotations

import os

# As the program itself does, before numpy is imported: small matrices gain nothing from a
# second thread, and lose much where the machine is busy.
for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(name, "1")

from hypothesis import settings  # noqa: E402

# The suite tries the same examples every time, so that a change fails by what it changes; new
# ones are tried on request: HYPOTHESIS_PROFILE=other, or long for many.
settings.register_profile("steady", derandomize=True, database=None)
settings.register_profile("other")
settings.register_profile("long", max_examples=4000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))
