"""What the documents of one car say against each other, check by check."""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from itertools import combinations

from tests.report.told import (
    Figure,
    Place,
    Told,
    after,
    bare,
    days,
    facts_of,
    flat,
    table_headed,
    texts,
    under,
)
from witnessmark.outline.records import Bullets, Drawing, Pictures, Table
from witnessmark.report.sections.matter import OPEN, PLACES, STORY, STRENGTH
from witnessmark.wording import Favours, spelled
from witnessmark.wording.amounts import capital
from witnessmark.wording.conclusions import about_words

DIFFERS = ("It differs from", "It does not fit")
"""How the section on what was found begins to say that something is not as it should be."""

UNSEEN = ("not accessible", "not looked for")


def contradictions(told: Told) -> list[str]:
    """Each contradiction in a line, with the name of the check that finds it."""
    return [f"{check.__name__.strip('_')}: {each}" for check in CHECKS for each in check(told)]


# ------------------------------------------------------------------------- the questions


def _one_answer_a_question(told: Told) -> Iterator[str]:
    for name, figures in told.figures.items():
        for one, other in combinations(figures, 2):
            if fault := _apart(one, other):
                yield f"{name}: {fault}: {one} but {other}"


def _apart(one: Figure, other: Figure) -> str:
    if bool(one.lr) != bool(other.lr):
        return "a figure beside a silence"
    if one.lr != other.lr:
        return "two figures"
    if not one.lr and "none" not in (one.standing, other.standing):
        return "two standings" if one.standing != other.standing else ""
    if "annex" in (one.where, other.where):
        return ""
    if one.words != other.words:
        return "two strengths"
    if one.favours is not other.favours:
        return "two directions"
    return "declared and not" if one.is_declared is not other.is_declared else ""


def _no_answer_is_not_every_answer(told: Told) -> Iterator[str]:
    silent = [n for n, figures in told.figures.items() if any(f.standing for f in figures)]
    every = "Every question has an answer, as strong as its words."
    if silent and every in texts(told.section(OPEN)):
        yield f"every question has an answer, but {silent} have none"


def _the_answer_is_its_row(told: Told) -> Iterator[str]:
    """The figure in the sentence of page one is that of the row."""
    packages = {
        about_words(e, told.names).lower() for e in told.opinion.weighed if e.about == "package"
    }
    asked = [n for n in told.figures if n.startswith("identity") or n in packages]
    shown = [f.lr for n in asked for f in told.figures[n]]
    for text in texts(told.front):
        if found := re.search(r"They are about (\S+) times more probable", text):
            times = found[1]
            if not any(times in (lr, lr.removeprefix("1/")) for lr in shown):
                yield f"{times} times, where the row says {shown}"


def _what_is_against_stands_against(told: Told) -> Iterator[str]:
    against = after(texts(told.front), "But not everything is as claimed: ").rstrip(".")
    for name in told.asked_in(against):
        sides = {(f.favours, f.is_declared) for f in told.figures[name] if f.favours}
        if sides != {(Favours.SECOND, False)}:
            yield f"{name} is not as claimed, but {sides}"


def _not_examined_has_no_reading(told: Told) -> Iterator[str]:
    for name, figures in told.figures.items():
        read = told.marks_of_question(name) & told.read_marks
        if read and any(f.standing == "not examined" for f in figures):
            yield f"{name} is not examined, but read were {sorted(read)}"
    table = table_headed(told.section(STRENGTH), "Question, and what the findings support")
    for about, _, _ in table.rows:
        read = told.marks_of_question(about.text.lower()) & told.read_marks
        if read and "This part was not seen at all." in about.below:
            yield f"{about.text} was not seen at all, but read were {sorted(read)}"


def _rows_and_rest_are_all(told: Told) -> Iterator[str]:
    strength = {n for n, some in told.figures.items() for f in some if f.where == "how strongly"}
    first = {n for n, some in told.figures.items() for f in some if f.where == "page one" and f.lr}
    rest = re.findall(r"Answered (?:in|for) [^:]*: (.*)\.", "\n".join(texts(told.front)))
    named = {each for names in rest for each in told.asked_in(names)}
    if strength and first | named != strength:
        yield f"page one names {sorted(first | named)}, section {STRENGTH} {sorted(strength)}"
    screen = {n for n, some in told.figures.items() for f in some if f.where == "screen" and f.lr}
    more = re.search(r"--all(?: \(also: (.*)\))?\.$", "\n".join(texts(told.screen.front)))
    left = more[1] or "" if more else ""
    struck = next((part for part in left.split("; ") if part.startswith("stampings on ")), "")
    behind = told.asked_in(left.replace(struck, "")) if left != struck else set()
    behind |= {
        name
        for name in strength
        if name.startswith("stamping on the ") and name.removeprefix("stamping on the ") in struck
    }
    if more is None or behind != strength - screen:
        yield f"{sorted(behind)} behind --all, but {sorted(strength - screen)} have no row"


# ---------------------------------------------------------------------------- what differs


def _nothing_differs_or_something_does(told: Told) -> Iterator[str]:
    odd = [p for p in told.places if p.follows.startswith(DIFFERS)]
    story = texts(told.section(STORY))
    nothing = "Nothing that was noted contradicts anything else."
    is_stopped = any(text.startswith("Stop here: ") for text in story)
    if (nothing in story) == bool(told.misfits or is_stopped):
        yield f"nothing contradicts: {nothing in story}, {told.misfits}, to stop: {is_stopped}"
    for text in (story, texts(told.screen.front)):
        if nothing in text and odd:
            yield f"nothing contradicts, but {[p.follows for p in odd]}"
        if nothing in text and told.items.rows and _signs(told, "differs"):
            yield f"nothing contradicts, but items differ: {_signs(told, 'differs')}"
        if nothing in text and (apart := _comparisons_apart(told)):
            yield f"nothing contradicts, but in the annex differs: {apart}"
    nowhere = "Nothing that several marks say, or that is claimed, differs anywhere."
    claims = [p.follows for p in odd if p.follows.startswith("It differs from what is claimed")]
    if nowhere in story and (told.items.rows or claims):
        yield f"no item differs, but {told.items.rows or claims}"
    if _signs(told, "differs") and not (odd or any(_is_told(told, p) for p in told.places)):
        yield f"items differ, but no place says so: {_signs(told, 'differs')}"
    if claims and not (_signs(told, "differs") or _signs(told, "declared")):
        yield f"{claims}, but no item differs"


def _signs(told: Told, sign: str) -> list[str]:
    return [r[0].text for r in told.items.rows if any(c.sign == sign for c in r)]


def _is_told(told: Told, place: Place) -> bool:
    story = texts(told.section(STORY))
    is_stop = any(t.startswith("Stop here: ") and place.follows.split(". ")[0] in t for t in story)
    is_declared = place.follows.startswith("As declared")
    return is_stop or is_declared or bare(place.follows) in told.misfits


def _comparisons_apart(told: Told) -> list[str]:
    rows = [
        row
        for block in under(told.annex.sections[1].blocks, "What differs")
        if isinstance(block, Table)
        for row in block.rows
    ]
    return [r[0].text for r in rows if not any("memory" in each for each in r[1].below)]


def _agreed_items_do_not_differ(told: Told) -> Iterator[str]:
    agreed = after(texts(told.section(STORY)), "Agrees wherever it is said: ")
    items = {part.partition(": ")[0].lower() for part in agreed.split("; ")}
    both = items & {row[0].text.lower() for row in told.items.rows}
    apart = set(_comparisons_apart(told))
    for finding in told.opinion.findings:
        if finding.observation in apart and told.names.item(finding.topic) in items:
            both.add(f"{finding.topic}: {finding.observation}")
    if both:
        yield f"agrees wherever it is said, and differs: {sorted(both)}"


def _misfits_are_the_same_everywhere(told: Told) -> Iterator[str]:
    loud = [m for m in told.misfits if not m.startswith(("As declared", "From memory"))]
    first = "\n".join(texts(told.front))
    reasons = [bare(b) for block in told.front if isinstance(block, Bullets) for b in block.items]
    is_rest = "Nor do these fit, see section" in first
    shown = [m for m in loud if m in reasons]
    if is_rest != (len(shown) < len(loud)):
        yield f"page one says {len(shown)} of {len(loud)} and that more stand there: {is_rest}"
    screen = "\n".join(texts(told.screen.front))
    if (
        ("Does not fit: " in screen or "Nor do these fit" in screen)
        and not loud
        and not _lack(told)
    ):
        yield f"the screen says that something does not fit, the story {told.misfits}"
    for place in told.places:
        for at in re.findall(r"\d+", after([place.follows], "It does not fit: section 4, points ")):
            if not 1 <= int(at) <= len(told.misfits):
                yield f"{place.title}: point {at} of {len(told.misfits)}"
        is_told = place.follows.startswith(("Impossible", "Unusual", "From memory"))
        if is_told and bare(place.follows) not in told.misfits:
            yield f"{place.title}: {place.follows} is no point of the story"


def _lack(told: Told) -> bool:
    return any("The car lacks the part" in text for text in texts(told.front))


# -------------------------------------------------------------------------- as declared


def _declared_is_no_alarm(told: Told) -> Iterator[str]:
    parts = {about.lower() for about, _, _, outcome in told.disclosed if outcome == "As declared"}
    for name, figures in told.figures.items():
        if name in parts and any(
            f.favours is Favours.SECOND and not f.is_declared for f in figures
        ):
            yield f"{name} was declared: {figures}"
    declared = {told.names.mark(mark) for mark in told.opinion.declared}
    for place in told.places:
        if place.follows.startswith(DIFFERS) and _marks(told, place) <= declared:
            yield f"{place.title} was declared: {place.follows}"
    for row in told.items.rows:
        odd = [told.items.head[at] for at, cell in enumerate(row[1:-2], 1) if cell.sign]
        words = {cell.sign for cell in row[-2:]}
        is_declared = [_is_part_declared(told, part) for part in odd]
        if odd and all(is_declared) and "differs" in words:
            yield f"{row[0].text} differs on {odd}, which were declared"
        if any(is_declared) and not odd:
            yield f"{row[0].text}"
    for row in _rows_apart(told):
        named = {m for m in declared if m.lower() in row[0].text.lower()}
        if named and not any("As was declared" in each for each in row[1].below):
            yield f"the annex says without a word on it: {row[0].text}"


def _is_part_declared(told: Told, part: str) -> bool:
    declared = set(told.opinion.declared)
    own = {m.id for m in told.book.marks if capital(told.names.assembly(m.assembly or "")) == part}
    read = {d.mark for d in told.opinion.decodings} & own
    return bool(read) and read <= declared


def _marks(told: Told, place: Place) -> set[str]:
    of_site = {
        told.names.mark(m)
        for s in told.opinion.sites
        if s.name.lower() == place.title.lower()
        for m in s.marks
    }
    return of_site or {place.title[:1].lower() + place.title[1:]}


def _rows_apart(told: Told) -> list[tuple]:
    blocks = under(told.annex.sections[1].blocks, "What differs")
    return [row for block in blocks if isinstance(block, Table) for row in block.rows]


def _an_outcome_is_what_was_found(told: Told) -> Iterator[str]:
    """What is said to be found of a part is what its row says."""
    for about, says, found, outcome in told.disclosed:
        for each in told.opinion.weighed:
            if not each.standing.has_figure:
                continue
            for pair, side in ((each.pair.first, 1), (each.pair.second, -1)):
                if found.startswith(f"The findings support that {pair.rstrip('.')}"):
                    if each.log10_lr * side <= 0:
                        yield f"{about}: {found} but log10 LR {each.log10_lr}"
                    if side > 0 and outcome == "Differs" and "first" in says:
                        yield f"{about}: {outcome}, {found}"
        if outcome == "Agrees" and found.startswith("Something does not fit"):
            yield f"{about}: agrees, and {found}"


# ----------------------------------------------------------------- seen, papers, looks


def _a_place_ended_in_one_way(told: Told) -> Iterator[str]:
    for place in told.places:
        states = told.states.get(place.title, set())
        if place.state and set(re.split(r", | and ", place.state)) != states:
            yield f"{place.title}: {place.state}, in the table of places {states}"
        if states and states <= set(UNSEEN) and (place.read or place.has_looks):
            yield f"{place.title}: {states}, but something was noted there"
    rows = table_headed(told.section(PLACES), "No.").rows
    states = Counter(row[2].text.lower() for row in rows)
    drawn = [b.caption for b in flat(told.section(PLACES)) if isinstance(b, Drawing)]
    for count, state in re.findall(r"(\d+) ([a-z ]+)[,.]", "".join(drawn[:1]).partition(": ")[2]):
        if int(count) != states[state]:
            yield f"the map counts {count} {state}, the table {states[state]}"
    unseen = [row[1].text for row in rows if row[2].text.lower() in UNSEEN]
    marks = [
        mark[1]
        for row in rows
        for each in (row[2].below if row[2].text.lower() not in UNSEEN else ())
        if (mark := re.match(rf"(.*): (?:{'|'.join(UNSEEN)})\.", each))
    ]
    for label, known in (("Places on the car", unseen), ("Single marks at places seen", marks)):
        line = re.search(rf"{label}: (.*?)\.(?: |$)", "\n".join(texts(told.front)))
        if bool(known) != bool(line):
            yield f"page one has unseen: {line and line[1]}, the table {known}"
        names = re.split(r" \([^()]*\)(?:; |$)", line[1])[:-1] if line else []
        for each in {e.lower() for e in names} - {e.lower() for e in known}:
            yield f"page one has {each} as unseen, the table {known}"
    screen = "\n".join(texts(told.screen.front))
    for text in (screen, "\n".join(texts(told.front)), "\n".join(texts(told.section(OPEN)))):
        for all_seen in (
            "Every place and paper was seen.",
            "Every place that the code book expects was looked at",
        ):
            if all_seen in text and unseen:
                yield f"{all_seen} But not: {unseen}"


def _a_paper_is_asked_for_or_read(told: Told) -> Iterator[str]:
    read = {p.title.lower() for p in told.places if p.part == "Papers" and p.read}
    asked = " ".join(told.steps)
    offered = "\n".join(told.offered)
    beyond = {f.text for f in facts_of(told.looks.front) if f.label == "Beyond this visit"}
    for paper in read:
        for text in (f"Ask for the {paper}.", f"Wait for the {paper},"):
            if text.lower() in asked.lower():
                yield f"{text}, which lies read"
        if f"obtain and read the {paper}" in offered.lower():
            yield f"{paper} is to be obtained, and lies read"
        for names in beyond:
            if paper in re.split(r"; | and \d+ more", names.lower().rstrip(".")):
                yield f"{paper} is beyond this visit, and lies read"
    held = set(read)
    for fact in facts_of(told.section(OPEN)):
        held |= {fact.label.lower()} if fact.text.startswith(("In hand", "A copy was")) else set()
        silent = ("Asked for and", "Said to be lost", "Not asked for")
        if fact.label.lower() in read and fact.text.startswith(silent):
            yield f"{fact.label} was read, but: {fact.text}"
    for text in (texts(told.front), texts(told.screen.front)):
        for names in re.findall(r"Papers: (.*?)(?:\. |\.$|$)", "\n".join(text), re.M):
            if unseen := {re.sub(r" \(.*", "", n).lower() for n in names.split("; ")} & held:
                yield f"not seen, but in hand: {unseen}"


def _a_look_was_not_taken(told: Told) -> Iterator[str]:
    looked = {p.title.lower() for p in told.places if p.has_looks}
    for prompt in (*told.offered, *told.steps):
        text = prompt.lower()
        mark = after([text], "read the ").partition(". ")[0].rstrip(".")
        if mark in told.read_marks:
            yield f"{prompt}, which was read"
        if text.startswith("look closely at the "):
            place = text.removeprefix("look closely at the ").partition(" and note how")[0]
            if place.partition(". ")[0].rstrip(".") in looked:
                yield f"{prompt}, which was looked at"
        again = re.match(r"read the (.*) again, by another", text)
        if again and again[1] not in told.read_marks | told.read_nearby:
            yield f"{prompt}, which nobody read"
    none = (
        "Nothing within reach is left to look at on the car.",
        "No further look is possible on this car.",
    )
    every = (*told.steps, *texts(told.section(OPEN)), *texts(told.looks.front))
    if told.offered and any(text in none for text in every):
        yield f"nothing is left to look at, but {told.offered}"


# ------------------------------------------------------------------------ dates, counts


def _a_date_is_one_date(told: Told) -> Iterator[str]:
    """What a code means is the same among what was found, on the time line, on the sheet."""
    found: dict[tuple[str, str], set[frozenset[str]]] = {}
    for place in told.places:
        for _, meaning in place.read:
            alternatives = (meaning.text, *(b.partition(": ")[2] for b in meaning.below))
            for part in (p for text in alternatives for p in text.split("; ")):
                item, _, says = part.partition(": ")
                code, _, date = says.partition(", ")
                if days(date):
                    found.setdefault((item.lower(), code), set()).add(days(date))
    for table in (b for b in flat(told.sheet.front) if isinstance(b, Table)):
        for _, read, says in table.rows:
            item, _, date = says.text.partition(": ")
            known = found.get((item.lower(), read.text))
            is_plain = "one of" not in date and "or" not in date.split()
            if known and days(date) and is_plain and days(date) not in known:
                yield f"{item} {read.text}: {date}, but found {known}"
    by_code = {}
    for (_, code), spans in found.items():
        by_code.setdefault(code, set()).update(spans)
    for row in table_headed(told.section(STORY), "Mark, and what it reads").rows:
        code, _, date = row[0].below[0].partition(": ")
        known = by_code.get(code)
        if known and days(date) and not any(days(date) & each for each in known):
            yield f"{row[0].text} {code}: {date} on the time line, but found {known}"


def _counts_are_those_of_their_lists(told: Told) -> Iterator[str]:
    said_of = Counter(o.lower() for _, says, _, o in told.disclosed if says != "nothing")
    rows = table_headed(told.front, "Question").rows
    told_rows = [row[1].text for row in rows if row[0].text == "What was said"]
    if bool(told_rows) != bool(said_of):
        yield f"page one tells of statements: {told_rows}, the table {dict(said_of)}"
    screen = after([f"{f.label}: {f.text}" for f in facts_of(told.screen.front)], "What was said: ")
    for text in (*told_rows, screen):
        counted = {word: int(n) for word, n in re.findall(r"([a-z ]+): (\d+)", text)}
        if text and {w.strip(): n for w, n in counted.items()} != dict(said_of):
            yield f"statements: {text}, but {dict(said_of)}"
        if (of := re.search(r"of (\d+) statement", text)) and int(of[1]) != said_of.total():
            yield f"{text}, but {said_of.total()}"
    lead = next((t for t in texts(told.section(OPEN)) if ", made by " in t), "")
    if lead:
        begin = spelled("{count} statement", "{count} statements", said_of.total())
        if not lead.lower().startswith(begin):
            yield f"{lead}, but {said_of.total()} rows"
    cited = {
        n
        for text in (*texts(told.front), *texts(told.report.sections[2].blocks))
        for part in re.findall(r"\(photographs? ([^)]*)\)", text)
        for n in re.findall(r"\d+", part)
    }
    known = len(told.opinion.casefile.exhibits)
    if wrong := {n for n in cited if not 1 <= int(n) <= known}:
        yield f"photographs {wrong} are cited, of {known}"
    whole = any(
        p.id for b in flat(told.section(PLACES)) if isinstance(b, Pictures) for p in b.photographs
    )
    if whole and any("no picture shows it" in text for text in told.steps):
        yield "the whole car is to be photographed, and a photograph of it is shown"


CHECKS: tuple[Callable[[Told], Iterator[str]], ...] = (
    _one_answer_a_question,
    _no_answer_is_not_every_answer,
    _the_answer_is_its_row,
    _what_is_against_stands_against,
    _not_examined_has_no_reading,
    _rows_and_rest_are_all,
    _nothing_differs_or_something_does,
    _agreed_items_do_not_differ,
    _misfits_are_the_same_everywhere,
    _declared_is_no_alarm,
    _an_outcome_is_what_was_found,
    _a_place_ended_in_one_way,
    _a_paper_is_asked_for_or_read,
    _a_look_was_not_taken,
    _a_date_is_one_date,
    _counts_are_those_of_their_lists,
)
