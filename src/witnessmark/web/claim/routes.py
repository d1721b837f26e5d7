"""The addresses of the claim, of each of its parts, and of one's own particulars."""

from witnessmark.web.route import Route, Who

_HERE = "cases/<case:case>/claim"

ROUTES: tuple[Route, ...] = (
    Route("claim", _HERE, "claim.view:page"),
    Route("claim_book", f"{_HERE}/book", "claim.view:book", write=Who.ASSISTANT),
    Route("claim_items", f"{_HERE}/items", "claim.view:items", write=Who.ASSISTANT),
    Route("claim_new", f"{_HERE}/<str:part>/new", "claim.view:new", write=Who.ASSISTANT),
    Route("claim_entry", f"{_HERE}/<str:part>/<int:at>", "claim.view:entry", write=Who.ASSISTANT),
    Route("claim_part", f"{_HERE}/<str:part>", "claim.view:part", write=Who.ASSISTANT),
    Route("profile", "profile", "claim.profile_view:page", Who.ASSISTANT, Who.ASSISTANT),
)
