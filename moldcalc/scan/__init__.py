"""The original as a mesh: its size, its pockets, and where a shell over it comes apart.

This room needs numpy, scipy, trimesh and OR-tools; whoever asks it for something imports it inside the function that asks.
"""
