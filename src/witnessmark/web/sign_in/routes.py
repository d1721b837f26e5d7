"""The addresses of the door."""

from witnessmark.web.route import Route, Who

ROUTES: tuple[Route, ...] = (
    Route("sign_in", "sign-in", "sign_in.view:page", Who.ANYBODY, Who.ANYBODY),
    Route("sign_out", "sign-out", "sign_in.view:leave", Who.READER, Who.READER),
    Route("first_owner", "first-owner", "sign_in.view:first_owner", Who.ANYBODY, Who.ANYBODY),
)
