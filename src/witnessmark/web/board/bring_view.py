"""A case brought in: a zip of its folder, or its document alone, checked like any case."""

from collections.abc import Callable
from dataclasses import replace
from itertools import chain
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import IO

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from witnessmark import store
from witnessmark.casefile import CaseOpened, open_case
from witnessmark.casefile.folder import CASE_NAME
from witnessmark.casefile.revisions import Revision, Revisions
from witnessmark.entry import books_of
from witnessmark.entry.shipped import shipped_folder
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.store import people
from witnessmark.store.document import document
from witnessmark.web.board.problems import HistoryBroken, NothingSent
from witnessmark.web.board.unpacked import unpack
from witnessmark.web.route import Who
from witnessmark.web.shared import books
from witnessmark.web.shared.saving import now


def page(request: HttpRequest) -> HttpResponse:
    """The form; sent, the case as it is here now, or all that is wrong with the file."""
    if request.method != "POST":
        return render(request, "board/bring.html", {"demonstrations": demonstrations()})
    sent, wanted = request.FILES.get("file"), request.POST.get("id", "").strip()
    if request.POST.get("demonstration"):
        return _demonstrated(request)
    if sent is None or sent.file is None:
        problems: tuple[Problem, ...] = (NothingSent(Source("file")),)
        return render(request, "board/bring.html", {"problems": problems}, status=422)
    person: people.PersonKnown = request.person  # type: ignore[attr-defined]
    stream, name = sent.file, Path(sent.name or "").name or "file"
    return _taken(request, wanted, lambda: bring_in(stream, name, wanted, person.name))


def demonstrations() -> tuple[str, ...]:
    """The demonstration cars that come with the program."""
    folder = shipped_folder("demo")
    return tuple(sorted(each.parent.name for each in folder.glob(f"*/{CASE_NAME}")))


def _demonstrated(request: HttpRequest) -> HttpResponse:
    """A demonstration car, to look round first."""
    name = request.POST["demonstration"]
    if name not in demonstrations():
        problems: tuple[Problem, ...] = (NothingSent(Source("demonstration")),)
        return render(request, "board/bring.html", {"problems": problems}, status=422)
    who = request.person.name  # type: ignore[attr-defined]
    return _taken(request, "", lambda: _folder_in(shipped_folder("demo") / name, "", who, name))


def _taken(request: HttpRequest, wanted: str, take: Callable[[], str]) -> HttpResponse:
    """To the case that was taken in, or what is wrong with it."""
    person: people.PersonKnown = request.person  # type: ignore[attr-defined]
    try:
        case = take()
    except store.NotKeptError as refused:
        given = {"problems": refused.problems, "id": wanted, "demonstrations": demonstrations()}
        return render(request, "board/bring.html", given, status=422)
    if person.role != Who.OWNER:
        people.let_in(person.id, case)
    return redirect("claim", case)


def bring_in(stream: IO[bytes], name: str, wanted: str, who: str) -> str:
    """Hold the case of this file and give its id, the one `wanted` where one is; `NotKeptError`
    where anything is wrong with it, and then nothing of it is held but photographs that are
    right, which no case names."""
    home = Path(settings.WITNESSMARK_HOME)
    home.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(prefix="coming-", dir=home) as made:
        folder = Path(made)
        if problems := unpack(stream, name, folder):
            raise store.NotKeptError(problems)
        return _folder_in(folder, wanted, who, name)


def _folder_in(folder: Path, wanted: str, who: str, name: str) -> str:
    """Hold the case of this folder, checked first."""
    opened = open_case(folder)
    problems = tuple(_as_sent(each, folder) for each in _faults(opened))
    if problems:
        raise store.NotKeptError(problems)
    for each in opened.casefile.exhibits if opened.casefile else ():
        with opened.exhibits.folder.joinpath(each.file).open("rb") as photograph:
            store.keep_exhibit(photograph, each.file, now())
    text = (folder / CASE_NAME).read_text("utf-8")
    return _held(folder, text, wanted, who, name)


def _faults(opened: CaseOpened) -> tuple[Problem, ...]:
    """What is wrong with the case or its photographs, or with the books that it names."""
    if opened.casefile is None or opened.problems:
        return opened.problems
    casefile, state = opened.casefile, books.state()
    found = books_of(casefile, opened.places, books.folder_for(casefile), known=books.known(state))
    return found if isinstance(found, tuple) else ()


def _as_sent(problem: Problem, folder: Path) -> Problem:
    """The problem with its place in what was sent, not in the folder where it was looked at."""
    source = problem.source
    return replace(problem, source=replace(source, name=source.name.removeprefix(f"{folder}/")))


def _held(folder: Path, text: str, wanted: str, who: str, name: str) -> str:
    """Every revision that came with it, or the document alone where it is to be called otherwise
    or none came."""
    own = document(text)
    if wanted and wanted != own.id:
        named = own.saying({**own.values, "id": wanted})
        return store.begin(named, who, f"brought in from {name}, there {own.id}", now()).case
    found = tuple(Revisions(folder / CASE_NAME).all())
    revisions = [each for each in found if isinstance(each, Revision)]
    told = tuple(_as_sent(each, folder) for each in found if isinstance(each, Problem))
    if told or (revisions and not _is_whole(revisions, own.id)):
        broken = HistoryBroken(Source(name), len(found))
        raise store.NotKeptError((broken, *told))
    if not revisions:
        return store.begin(text, who, f"brought in from {name}", now()).case
    first, *later = revisions
    kept = store.begin(first.case, first.who, first.did, first.when or now())
    for each in later:
        kept = store.revise(
            kept.case,
            kept.number,
            each.case,
            who=each.who,
            did=each.did,
            at=each.when or now(),
            undoes=each.undoes,
        ).kept
    store.revise(kept.case, kept.number, text, who=who, did=f"brought in from {name}", at=now())
    return kept.case


def _is_whole(revisions: list[Revision], case: str) -> bool:
    """Do they follow each other from the first, all of this case?"""
    try:
        ids = {document(each.case).id for each in revisions}
    except store.NotKeptError:
        return False
    parents = chain(("",), (each.sha256 for each in revisions))
    follow = all(each.parent == parent for each, parent in zip(revisions, parents, strict=False))
    return ids == {case} and follow
