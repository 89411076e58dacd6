"""A panel that stands still: what a stored notebook shows before it is run, and the plain text that is compared."""

from collections.abc import Mapping, Sequence
from html import escape
from typing import Any

WORDS = {"check": "Check", "care": "Take care"}
INVITATION = "Run this chapter to move the sliders."
SHEET = "border:1px solid #d8d5cc;border-radius:8px;background:#fdfcf9;color:#1f2328;font:15px/1.4 system-ui,sans-serif;"
SHEET += "padding:16px 22px;color-scheme:light"


def figure_html(picture: Mapping[str, str]) -> str:
    """A drawing with its line."""
    caption = f'<figcaption style="color:#55555b">{escape(picture["caption"])}</figcaption>'
    return f'<figure style="margin:0;flex:0 1 340px">{picture["svg"]}{caption}</figure>'


def static_html(answer: str, band: str, pictures: Sequence[Mapping[str, str]], cautions: Sequence[Mapping[str, str]],
                results: Sequence[Mapping[str, str]]) -> str:
    """The panel as a still picture. ``answer`` and ``band`` are HTML already; all else is escaped here."""
    drawn = "".join(figure_html(picture) for picture in pictures)
    boxes = "".join(f'<p style="border-left:4px solid #9a3412;background:#fff4ee;margin:6px 0;padding:8px 12px"><b>{WORDS[caution["kind"]]}:</b> '
                    f'{escape(caution["text"])}</p>' for caution in cautions)
    lines = "".join(f'<tr><th scope="row" style="text-align:left;font-weight:400">{escape(result["label"])}<br>'
                    f'<small style="color:#55555b">{escape(result["why"])}</small></th><td style="text-align:right;white-space:nowrap">'
                    f'{escape(result["value"])}<br><small style="color:#55555b">{escape(result["band"])}</small></td></tr>' for result in results)
    return (f'<section class="mc-static" style="{SHEET}"><p style="font-size:23px;margin:0">{answer}</p>'
            f'<p style="color:#55555b;margin:2px 0 12px">{band}</p>'
            f'<div style="display:flex;flex-wrap:wrap;gap:16px">{drawn}</div>{boxes}'
            f'<table style="width:100%;margin:12px 0 0">{lines}</table><p style="color:#55555b">{INVITATION}</p></section>')


def plain_text(answer: str, band: str, table: str, cautions: Sequence[Mapping[str, Any]]) -> str:
    """Answer, results and cautions as lines."""
    said = [f"{WORDS[caution['kind']]}: {caution['text']}" for caution in cautions]
    return "\n".join(filter(None, (answer, band, table, *said)))
