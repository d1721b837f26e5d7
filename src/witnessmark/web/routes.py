"""Every page there is, in the order of a job, and who may see it.

The table is the guard: `guard.Guard` lets nobody past it, and a test goes through it as everybody
who may not see a page. A page that is not in the table does not exist.
"""

from witnessmark.web.board import routes as board
from witnessmark.web.books import routes as books
from witnessmark.web.claim import routes as claim
from witnessmark.web.evidence import routes as evidence
from witnessmark.web.first_look import routes as first_look
from witnessmark.web.history import routes as history
from witnessmark.web.people import routes as people
from witnessmark.web.phone import routes as phone
from witnessmark.web.plan import routes as plan
from witnessmark.web.read_later import routes as read_later
from witnessmark.web.report import routes as report
from witnessmark.web.route import Route
from witnessmark.web.second import routes as second
from witnessmark.web.sign_in import routes as sign_in
from witnessmark.web.story import routes as story
from witnessmark.web.weight import routes as weight

ROUTES: tuple[Route, ...] = (
    *sign_in.ROUTES,
    *board.ROUTES,
    *claim.ROUTES,
    *plan.ROUTES,
    *evidence.ROUTES,
    *second.ROUTES,
    *story.ROUTES,
    *weight.ROUTES,
    *report.ROUTES,
    *history.ROUTES,
    *first_look.ROUTES,
    *books.ROUTES,
    *read_later.ROUTES,
    *people.ROUTES,
    *phone.ROUTES,
)
