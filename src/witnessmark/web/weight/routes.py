"""The addresses of this page."""

from witnessmark.web.route import Route

ROUTES: tuple[Route, ...] = (Route("weight", "cases/<case:case>/weight", "weight.view:page"),)
