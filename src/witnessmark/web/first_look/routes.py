"""The addresses of this page."""

from witnessmark.web.route import Route, Who

ROUTES: tuple[Route, ...] = (
    Route("first_look", "look", "first_look.view:page", Who.OPEN, Who.OPEN),
    Route("what_to_do", "look/what-to-do", "first_look.view:what_to_do", Who.OPEN),
)
