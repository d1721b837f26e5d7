"""The addresses of this page."""

from witnessmark.web.route import Route, Who

ROUTES: tuple[Route, ...] = (
    Route("weight", "cases/<case:case>/weight", "weight.view:page", write=Who.ASSISTANT),
    Route("weight_steady", "cases/<case:case>/weight/steady", "weight.view:steady"),
    Route("weight_trial", "cases/<case:case>/weight/trial", "weight.trial_view:trial"),
)
