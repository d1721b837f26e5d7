"""What a phone sends: pictures under their digest, then what it jotted down. The answer names what
the case has; nothing is said to be there before it lies on the disk."""

from typing import Any

from django.http import HttpRequest, HttpResponse, JsonResponse

from witnessmark import store
from witnessmark.entry import jottings_of
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.web.phone.here import PhoneGoneError, phone_here
from witnessmark.web.phone.taking import JottingCame, Whence, take
from witnessmark.web.shared.saving import now

GONE = 410


def jottings(request: HttpRequest) -> HttpResponse:
    """Take in what was jotted down: of each the revision that has it, or what is wrong with it."""
    try:
        phone = phone_here(request)
    except PhoneGoneError:
        return gone()
    text = request.body.decode("utf-8", "replace")
    found, problems = jottings_of(text, "jottings")
    if problems:
        return JsonResponse({"problems": told(problems)}, status=422)
    whence = Whence(phone.by, phone.id, phone.cases)
    outcomes = [_shown(take(each, whence)) for each in found]
    return JsonResponse({"jottings": outcomes})


def picture(request: HttpRequest, sha256: str) -> HttpResponse:
    """Keep a picture byte for byte, if it is the one that its phone meant."""
    try:
        phone_here(request)
    except PhoneGoneError:
        return gone()
    sent = request.FILES.get("picture")
    if sent is None:
        return JsonResponse({"problems": ["No picture came: send it again."]}, status=422)
    source = Source(sent.name or "picture")
    try:
        kept = store.keep_exhibit(sent.open("rb"), source.name, now(), source)
    except store.NotKeptError as fault:
        return JsonResponse({"problems": told(fault.problems)}, status=422)
    if kept.sha256 != sha256:
        return JsonResponse({"problems": ["It arrived changed: send it again."]}, status=409)
    return JsonResponse({"sha256": kept.sha256, "size": kept.size})


def gone() -> JsonResponse:
    """That this phone is not let in, or no longer: what it holds stays on it."""
    sentence = "This phone is not let in, or was let go. What it holds stays on it."
    return JsonResponse({"problems": [sentence]}, status=GONE)


def told(problems: tuple[Problem, ...]) -> list[str]:
    """What is wrong, in sentences."""
    return [each.sentence() for each in problems]


def _shown(outcome: JottingCame) -> dict[str, Any]:
    if outcome.problems:
        return {"id": outcome.id, "problems": told(outcome.problems)}
    return {"id": outcome.id, "revision": outcome.revision}
