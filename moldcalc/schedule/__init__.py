"""The calendar: every task of a job on a grid of time, within hours and people, with cures that run through the night.

This room needs numpy and OR-tools; whoever asks it for something imports it inside the function that asks. Times are plain
seconds from a zero of the caller's (best: midnight before the first day); `dates` turns them into dates and back.
"""
