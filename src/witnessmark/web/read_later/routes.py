"""The addresses of the page for later, and of who makes and ends it."""

from witnessmark.web.route import Route, Who

_CASE = "cases/<case:case>/later"

ROUTES: tuple[Route, ...] = (
    Route("read_later", "read/<str:token>", "read_later.view:page", Who.PASS),
    Route("make_later", _CASE, "read_later.pass_view:make", Who.OWNER, Who.OWNER),
    Route("end_later", f"{_CASE}/<int:number>", "read_later.pass_view:end", Who.OWNER, Who.OWNER),
)
