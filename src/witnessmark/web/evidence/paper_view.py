"""Papers and the title: where each is, what was read on it, what it says."""

from dataclasses import dataclass, replace

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse

from witnessmark.casefile import Paper, PaperKind, PaperState, Seen, Title
from witnessmark.codebook import Mark, MarkKind
from witnessmark.entry import CaseDraft, EnteredPair, enter_papers
from witnessmark.examination import car_context
from witnessmark.web.evidence.cards import MarkCard, PhotoShown, mark_card, photos_at
from witnessmark.web.evidence.forms import RadioWord, Refused, choices
from witnessmark.web.evidence.said import place_said
from witnessmark.web.evidence.saves import Held, entered, reply, saved_with, sent
from witnessmark.web.evidence.view import may_write
from witnessmark.web.evidence.walk import OTHERS, TITLE, walk_of
from witnessmark.web.shared.desk import Bench, bench_of
from witnessmark.web.shared.saving import Saved, acknowledged
from witnessmark.wording import paper_sentence
from witnessmark.wording.amounts import capital

STATE_FIELDS = ("state", "copied_from", "note")
NEW_FIELDS = ("name", "kind", "state", "note")


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperCard:
    """A paper of the book, or one that it does not list."""

    key: str
    name: str
    form: str
    states: tuple[RadioWord, ...]
    note: str = ""
    copied_from: tuple[RadioWord, ...] = ()
    mark: MarkCard | None = None
    photos: tuple[PhotoShown, ...] = ()
    problems: tuple[object, ...] = ()

    @property
    def marks(self) -> tuple[MarkCard, ...]:
        """The one mark that it is read as."""
        return (self.mark,) if self.mark else ()


def paper(request: HttpRequest, case: str, mark: str) -> HttpResponse:
    """A paper of the book; a form sent to it says where it is."""
    bench = bench_of(case)
    found = bench.book.mark(mark) if bench.has_book else None
    if found is None or found.kind is not MarkKind.PAPER:
        raise Http404
    if request.method == "POST":
        saved = _save_paper(request, case, mark, "")
        address = reverse("paper", args=[case, mark])
        return reply(request, saved, address, lambda *a, **k: paper_page(*a, mark=mark, **k))
    return paper_page(request, bench, mark=mark)


def paper_page(
    request: HttpRequest,
    bench: Bench,
    *,
    mark: str,
    refused: Refused | None = None,
    saved: Saved | None = None,
) -> HttpResponse:
    """The page of a paper, or what of it changed with a save."""
    found = bench.book.mark(mark)
    if found is None:
        raise Http404
    if saved is not None:
        return acknowledged(request, saved)
    card = _paper_card(bench, found, str(request.person.name), refused)  # type: ignore[attr-defined]
    given = _given(request, bench, mark, refused)
    given |= {"paper": card, "said": place_said(bench, (mark,))}
    return render(request, "evidence/paper.html", given)


def _given(
    request: HttpRequest, bench: Bench, at: str, refused: Refused | None
) -> dict[str, object]:
    return {
        "here": "evidence",
        "bench": bench,
        "walk": walk_of(bench, at),
        "refused": refused,
        "may_write": may_write(request),
    }


def _paper_card(bench: Bench, mark: Mark, name: str, refused: Refused | None) -> PaperCard:
    own = next((e for e in bench.casefile.papers if e.mark == mark.id), None)
    own = own or Paper(mark=mark.id, state=PaperState.NOT_ASKED_FOR)
    form = f"paper-{mark.id}"
    held = _held_by(own) if refused is None or refused.form != form else refused.typed
    context = car_context(bench.casefile, bench.book)
    sources = (each for each in bench.book.marks_for(context) if each.id != mark.id)
    copied = held.get("copied_from", "")
    return PaperCard(
        key=mark.id,
        name=capital(mark.name),
        form=form,
        states=_states(held.get("state", own.state.value)),
        note=held.get("note", ""),
        copied_from=(
            RadioWord("", "of no other mark or paper, or not known", not copied),
            *(RadioWord(m.id, m.name, m.id == copied) for m in sources),
        ),
        mark=mark_card(bench, mark, (name, refused)),
        photos=tuple(photos_at(bench, "", (mark.id,))),
        problems=refused.problems if refused is not None and refused.form == form else (),
    )


def _states(chosen: str) -> tuple[RadioWord, ...]:
    return tuple(RadioWord(e.value, paper_sentence(e), e.value == chosen) for e in PaperState)


def _held_by(own: Paper) -> dict[str, str]:
    return {"state": own.state.value, "copied_from": own.copied_from, "note": own.note}


def _save_paper(request: HttpRequest, case: str, mark: str, name: str) -> Saved:
    """Where a paper is: of the book by its mark, any other by its name."""
    form = sent(request, STATE_FIELDS)

    def own_of(papers: tuple[Paper, ...]) -> Paper | None:
        return next((e for e in papers if (e.mark, e.name) == (mark, name)), None)

    def make(draft: CaseDraft) -> tuple[str, ...]:
        there = own_of(draft.casefile.papers)
        changed = form.changed if there else form.now
        if not changed:
            return ()
        state = changed.get("state") or (there.state.value if there else PaperState.NOT_ASKED_FOR)
        fields = {k: entered(v, k) for k, v in changed.items() if k != "state"}
        pair = EnteredPair(entered(mark or name, "paper"), entered(str(state), "state"))
        return enter_papers(draft, [pair], fields)

    def held(bench: Bench) -> Held | None:
        own = own_of(bench.casefile.papers)
        return None if own is None else _held_by(own)

    return saved_with(request, case, "paper", make, held)


def others(request: HttpRequest, case: str) -> HttpResponse:
    """Papers that the book does not list; a form says where one is, or adds one."""
    bench = bench_of(case)
    if not bench.has_book:
        raise Http404
    if request.method == "POST":
        if "deed" in request.POST:
            saved = _add_paper(request, case)
        else:
            saved = _save_paper(request, case, "", request.POST.get("paper", ""))
        return reply(request, saved, reverse("other_papers", args=[case]), others_page)
    return others_page(request, bench)


def _add_paper(request: HttpRequest, case: str) -> Saved:
    form = sent(request, NEW_FIELDS).now

    def make(draft: CaseDraft) -> tuple[str, ...]:
        fields = {k: entered(form.get(k, ""), k) for k in ("kind", "note")}
        pair = EnteredPair(
            entered(form.get("name", "").strip(), "name"), entered(form.get("state", ""), "state")
        )
        return enter_papers(draft, [pair], fields)

    return saved_with(request, case, "paper", make)


def others_page(
    request: HttpRequest,
    bench: Bench,
    *,
    refused: Refused | None = None,
    saved: Saved | None = None,
) -> HttpResponse:
    """The page of papers of no book, or what of it changed with a save."""
    if saved is not None:
        return acknowledged(request, saved)
    cards = tuple(_other(each, refused) for each in bench.casefile.papers if not each.mark)
    given = _given(request, bench, OTHERS, refused)
    given |= {"papers": cards, "kinds": [e for e in PaperKind if e], "states": _states("")}
    return render(request, "evidence/other_papers.html", given)


def _other(own: Paper, refused: Refused | None) -> PaperCard:
    form = f"paper-{own.name}"
    is_refused = refused is not None and refused.form == form
    held = refused.typed if refused is not None and is_refused else _held_by(own)
    return PaperCard(
        key=own.name,
        name=f"{own.name} ({own.kind.value})",
        form=form,
        states=_states(held.get("state", own.state.value)),
        note=held.get("note", ""),
        problems=refused.problems if refused is not None and is_refused else (),
    )


def title(request: HttpRequest, case: str) -> HttpResponse:
    """The number on the title or registration paper."""
    bench = bench_of(case)
    if not bench.has_book:
        raise Http404
    if request.method == "POST":
        saved = _save_title(request, case)
        return reply(request, saved, reverse("title_paper", args=[case]), title_page)
    return title_page(request, bench)


def _save_title(request: HttpRequest, case: str) -> Saved:
    form = sent(request, ("number", "issued_by", "seen"))

    def make(draft: CaseDraft) -> tuple[str, ...]:
        fields = {name: entered(each, name) for name, each in form.changed.items()}
        made = draft.put_in(draft.casefile.title_paper, fields, ("title_paper",))
        if made is None or not fields:
            return ()
        draft.casefile = replace(draft.casefile, title_paper=made)
        return (f"title paper: {made.number}",)

    return saved_with(request, case, "title", make, lambda b: _held_title(b.casefile.title_paper))


def _held_title(own: Title) -> dict[str, str]:
    return {"number": own.number, "issued_by": own.issued_by, "seen": own.seen.value}


def title_page(
    request: HttpRequest,
    bench: Bench,
    *,
    refused: Refused | None = None,
    saved: Saved | None = None,
) -> HttpResponse:
    """The page of the title, or what of it changed with a save."""
    if saved is not None:
        return acknowledged(request, saved)
    own, case = bench.casefile.title_paper, bench.casefile
    held = refused.typed if refused is not None else _held_title(own)
    shown = enumerate(case.exhibits, 1)
    given = _given(request, bench, TITLE, refused)
    given |= {
        "title_paper": held,
        "seen": choices(Seen, held.get("seen", "")),
        "photos": tuple(PhotoShown(n, e) for n, e in shown if e.id in own.exhibits),
        "said": place_said(bench, (TITLE,)),
    }
    return render(request, "evidence/title.html", given)
