"""The addresses of this page."""

from witnessmark.web.route import Route, Who

_CASE = "cases/<case:case>"
_AT = f"{_CASE}/evidence/<str:place>"
_PHOTO = f"{_CASE}/photographs/<path:exhibit>"

ROUTES: tuple[Route, ...] = (
    Route("evidence", f"{_CASE}/evidence", "evidence.view:page"),
    Route("title_paper", f"{_CASE}/title-paper", "evidence.paper_view:title", write=Who.ASSISTANT),
    Route("other_papers", f"{_CASE}/papers", "evidence.paper_view:others", write=Who.ASSISTANT),
    Route("paper", f"{_CASE}/papers/<str:mark>", "evidence.paper_view:paper", write=Who.ASSISTANT),
    Route("place", _AT, "evidence.view:place", write=Who.ASSISTANT),
    Route("evidence_follows", f"{_CASE}/evidence-follows/<str:place>", "evidence.view:follows"),
    Route("place_worth", f"{_AT}/worth", "evidence.view:worth"),
    Route(
        "reading",
        f"{_CASE}/readings/<str:mark>",
        "evidence.reading_view:reading",
        see=Who.ASSISTANT,
        write=Who.ASSISTANT,
    ),
    Route(
        "reading_live",
        f"{_CASE}/readings/<str:mark>/live",
        "evidence.reading_view:live",
        see=Who.ASSISTANT,
        write=Who.ASSISTANT,
    ),
    Route(
        "looked",
        f"{_AT}/looks/<str:feature>",
        "evidence.seen_view:look",
        see=Who.ASSISTANT,
        write=Who.ASSISTANT,
    ),
    Route("photos", f"{_CASE}/photographs", "evidence.photo_view:add", write=Who.ASSISTANT),
    Route("photo_shown", f"{_PHOTO}/shown", "evidence.photo_view:shown"),
    Route("photo_crop", f"{_PHOTO}/part/<int:part>", "evidence.photo_view:crop"),
    Route("photo_original", f"{_PHOTO}/original", "evidence.photo_view:original"),
    Route("photo", _PHOTO, "evidence.photo_view:page", write=Who.ASSISTANT),
)
