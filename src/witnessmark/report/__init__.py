"""An Opinion printed: its outline in sentences, and the PDF that Typst sets from it."""

from witnessmark.outline.records import Outline
from witnessmark.outline.text import report_text
from witnessmark.report.outline import build_outline
from witnessmark.report.press.render import render_report

__all__ = ["Outline", "build_outline", "render_report", "report_text"]
