"""What is sent from the plan: the pictures asked for, the questions to the seller, the letters;
each as text to copy. Under a stop nothing is asked of the seller or of an owner."""

from datetime import date

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark.examination import Opinion
from witnessmark.plan import visit_plan
from witnessmark.report.sections.to_ask import may_seller_be_asked
from witnessmark.report.sheets.message import (
    Addressee,
    NoLetter,
    letter_text,
    seller_message,
    why_no_letter,
)
from witnessmark.report.sheets.picture_request import Sender, message
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import now
from witnessmark.wording import stop_sentence

NOT_THE_SELLER = "Until it has answered, the seller is not to be asked."
NOT_AN_OWNER = "Until it has answered, no owner is to be asked."
NO_NUMBER = "The claim names no number of the car, and nobody can find it by anything else."
IN_FULL = "This letter holds the car’s number in full: send it to nobody else."
NO_SERIAL = "It holds no serial and tells nothing of what a number ought to be."
TITLES = {
    Addressee.ARCHIVE: "Letter to the archive",
    Addressee.TITLE_OFFICE: "Letter to the title office",
    Addressee.EARLIER_OWNER: "Letter to an earlier owner",
}


def pictures(request: HttpRequest, case: str) -> HttpResponse:
    """The pictures that a seller is asked for, as a message."""
    bench = bench_of(case)
    reply_to, reply_by = request.GET.get("reply_to", "").strip(), _day(request)
    shown: dict[str, object] = {
        "title": "Pictures to ask for",
        "note": NO_SERIAL,
        "is_request": True,
        "reply_to": reply_to,
        "reply_by": reply_by.isoformat() if reply_by else "",
        "wrong_day": bool(request.GET.get("reply_by")) and reply_by is None,
    }
    opinion = bench.opinion
    if opinion is not None:
        plan = visit_plan(opinion.casefile, bench.book, (), None)
        examiners = opinion.casefile.assignment.examiners
        sender = Sender(examiners[0] if examiners else None, reply_to, reply_by)
        shown |= _or_stop(opinion, message(plan, sender), NOT_THE_SELLER)
    return _page(request, bench, shown)


def questions(request: HttpRequest, case: str) -> HttpResponse:
    """What to ask the seller, the most telling first."""
    bench = bench_of(case)
    shown: dict[str, object] = {"title": "Questions for the seller", "note": NO_SERIAL}
    if (opinion := bench.opinion) is not None:
        shown |= _or_stop(opinion, seller_message(opinion, bench.book), NOT_THE_SELLER)
    return _page(request, bench, shown)


def letter(request: HttpRequest, case: str, to: str) -> HttpResponse:
    """A letter to somebody who can know more of the car."""
    if to not in tuple(Addressee):
        raise Http404
    addressee, bench = Addressee(to), bench_of(case)
    shown: dict[str, object] = {"title": TITLES[addressee], "note": IN_FULL}
    if (opinion := bench.opinion) is not None:
        withheld = why_no_letter(opinion, bench.book, addressee)
        if withheld is NoLetter.NO_NUMBER:
            shown["withheld"] = NO_NUMBER
        elif withheld is NoLetter.STOP:
            shown["withheld"] = f"{stop_sentence(opinion.answer.stops)} {NOT_AN_OWNER}"
        else:
            shown["text"] = letter_text(opinion, bench.book, addressee, now().date())
    return _page(request, bench, shown)


def _or_stop(opinion: Opinion, text: str, told: str) -> dict[str, str]:
    """The text; under a stop why there is none."""
    if may_seller_be_asked(opinion.answer):
        return {"text": text}
    return {"withheld": f"{stop_sentence(opinion.answer.stops)} {told}"}


def _page(request: HttpRequest, bench: Bench, shown: dict[str, object]) -> HttpResponse:
    """The page, or the text alone as a file."""
    text = shown.get("text")
    if isinstance(text, str) and "file" in request.GET:
        answer = HttpResponse(text, content_type="text/plain; charset=utf-8")
        name = request.path.rsplit("/", 1)[-1]
        answer["Content-Disposition"] = f'attachment; filename="{name}.txt"'
        return answer
    return render(request, "plan/message.html", {"bench": bench, "here": "plan", **shown})


def _day(request: HttpRequest) -> date | None:
    try:
        return date.fromisoformat(request.GET.get("reply_by", ""))
    except ValueError:
        return None
