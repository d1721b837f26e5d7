"""The addresses of the plan of a visit."""

from witnessmark.web.route import Route, Who

_PLAN = "cases/<case:case>/plan"

ROUTES: tuple[Route, ...] = (
    Route("plan", _PLAN, "plan.view:page", write=Who.ASSISTANT),
    Route("expectations", f"{_PLAN}/expectations", "plan.view:expectations"),
    Route("picture_request", f"{_PLAN}/picture-request", "plan.messages_view:pictures"),
    Route("questions", f"{_PLAN}/questions", "plan.messages_view:questions"),
    Route("letter", f"{_PLAN}/letters/<slug:to>", "plan.messages_view:letter"),
)
