"""The addresses of this page."""

from witnessmark.web.route import Route, Who

ROUTES: tuple[Route, ...] = (
    Route("people", "people", "people.view:page", Who.OWNER, Who.OWNER),
    Route("person", "people/<int:number>", "people.view:person", None, Who.OWNER),
    Route("end_pass", "people/passes/<int:number>", "people.view:end_pass", None, Who.OWNER),
    Route("workshop_settings", "people/settings", "people.view:settings", None, Who.OWNER),
)
