"""What a scan says about a job: its size, its pockets, its sections; found, kept in the job, and shown.

This room stands on numpy; whoever asks it for something imports it inside the function that asks.
"""
