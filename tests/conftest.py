"""Property tests draw the same examples every time, so that a failure is everybody's and a pass is not luck on one machine."""

from hypothesis import settings

settings.register_profile("repeatable", derandomize=True, deadline=None)
settings.load_profile("repeatable")
