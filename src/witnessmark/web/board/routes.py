"""The addresses of this page."""

from witnessmark.web.route import Route

ROUTES: tuple[Route, ...] = (Route("board", "", "board.view:page"),)
