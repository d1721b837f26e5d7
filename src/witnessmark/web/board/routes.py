"""The addresses of the board, of a new case, and of a case that is brought in."""

from witnessmark.web.route import Route, Who

ROUTES: tuple[Route, ...] = (
    Route("board", "", "board.view:page"),
    Route("board_worked_out", "board/worked-out", "board.view:worked_out"),
    Route("cases_csv", "cases.csv", "board.table_view:table"),
    Route("day", "days/<str:day>", "board.view:day"),
    Route("put_away", "board/away", "board.view:put_away", None, Who.ASSISTANT),
    Route("new_case", "new", "board.new_view:page", Who.ASSISTANT, Who.ASSISTANT),
    Route("models_offered", "new/models", "board.new_view:models", Who.ASSISTANT),
    Route("bring_in", "bring-in", "board.bring_view:page", Who.ASSISTANT, Who.ASSISTANT),
    Route("triage", "cases/<case:case>/triage", "board.triage_view:page"),
)
