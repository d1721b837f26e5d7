"""The addresses of this page."""

from witnessmark.web.route import Route

ROUTES: tuple[Route, ...] = (
    Route("history", "cases/<case:case>/history", "history.view:page"),
    Route("beside", "cases/<case:case>/beside", "history.beside_view:page"),
)
