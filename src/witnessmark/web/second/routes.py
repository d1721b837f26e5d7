"""The addresses of this page."""

from witnessmark.web.route import Route, Who

ROUTES: tuple[Route, ...] = (
    Route("second", "cases/<case:case>/second", "second.view:page", see=Who.OWNER, write=Who.OWNER),
)
