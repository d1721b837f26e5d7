"""The addresses of this page."""

from witnessmark.web.route import Route

ROUTES: tuple[Route, ...] = (Route("report", "cases/<case:case>/report", "report.view:page"),)
