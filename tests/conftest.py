"""Settings that every test shares."""

from hypothesis import settings

# No test asserts a time, so no property test may fail for being slow.
settings.register_profile("house", deadline=None)
settings.load_profile("house")
