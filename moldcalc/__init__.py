"""Calculations for large brush-on rubber molds with rigid sectional shells, under a workbook of chapters."""

__version__ = "0.1.0"
