"""The addresses of this page."""

from witnessmark.web.route import Route, Who

_IN = "second/<str:token>"

ROUTES: tuple[Route, ...] = (
    Route("second", "cases/<case:case>/second", "second.view:page", see=Who.OWNER, write=Who.OWNER),
    Route("second_in", _IN, "second.blind_view:page", see=Who.PASS),
    Route("second_done", f"{_IN}/done", "second.blind_view:done", see=Who.PASS, write=Who.PASS),
    Route("second_place", f"{_IN}/places/<str:place>", "second.blind_view:place", see=Who.PASS),
    Route(
        "second_reading",
        f"{_IN}/readings/<str:mark>",
        "second.entry_view:reading",
        see=Who.PASS,
        write=Who.PASS,
    ),
    Route(
        "second_live",
        f"{_IN}/readings/<str:mark>/live",
        "second.entry_view:live",
        see=Who.PASS,
        write=Who.PASS,
    ),
    Route(
        "second_look",
        f"{_IN}/places/<str:place>/looks/<str:feature>",
        "second.entry_view:look",
        see=Who.PASS,
        write=Who.PASS,
    ),
    Route(
        "second_photo",
        f"{_IN}/photographs/<int:number>",
        "second.blind_view:photo",
        see=Who.PASS,
    ),
)
