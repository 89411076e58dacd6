"""Panels: one small declaration a chapter, one shared mechanism, our own small pictures."""

from moldcalc.panels.declared import DECLARED, PanelDeclaration, Picture
from moldcalc.panels.panel import Panel, panel

__all__ = ["DECLARED", "Panel", "PanelDeclaration", "Picture", "panel"]
