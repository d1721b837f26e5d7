"""The addresses of a case's history."""

from witnessmark.web.route import Route, Who

_HISTORY = "cases/<case:case>/history"

ROUTES: tuple[Route, ...] = (
    Route("history", _HISTORY, "history.view:page"),
    Route("compared", f"{_HISTORY}/compared", "history.view:compared"),
    Route("back_to", f"{_HISTORY}/back", "history.view:back", Who.ASSISTANT, Who.ASSISTANT),
    Route("beside", "cases/<case:case>/beside", "history.beside_view:page", write=Who.ASSISTANT),
)
