"""An Opinion printed: its outline in sentences, and the PDF that Typst sets from it."""

from witnessmark.report.outline import build_outline
from witnessmark.report.press.plain_text import report_text
from witnessmark.report.press.render import render_report
from witnessmark.report.records import Outline

__all__ = ["Outline", "build_outline", "render_report", "report_text"]
