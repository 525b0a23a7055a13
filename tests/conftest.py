"""Properties are looked at over the same cases each time, so that a run of the tests says the same thing twice."""

from hypothesis import settings

settings.register_profile("same each time", derandomize=True, print_blob=False)
settings.load_profile("same each time")
