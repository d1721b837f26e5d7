"""Changes that any standard car can take: to a core, to what bears the identity, to the visit."""

from dataclasses import replace
from re import sub

from tests.worked.situations.car import (
    Car,
    Change,
    Texts,
    again,
    ends,
    looks,
    noted,
    of_another,
    one_figure_wrong,
    photographed,
    says,
    second_reading,
    two_exchanged,
    unseen,
)
from tests.worked.situations.document import book_of, sites_seen
from witnessmark.codebook import MarkKind


def _site(car: Car, mark: str) -> str:
    found = book_of(car.book).mark(mark)
    assert found is not None, mark
    return found.site


def _all(sign: str, car: Car) -> Texts:
    """This sign for every character of every number of the car."""
    return {
        name: "".join(" " if c == " " else sign for c in car.values[name]) for name in car.others[0]
    }


# -------------------------------------------------------------------------- a core


def core_of_another(assembly: str, which: int = 0) -> Change:
    """Its number is another car's, clear, and so is the day of its stamp."""

    def change(car: Car) -> Car:
        core = car.core(assembly)
        days = [says(mark, text) for mark, text in core.of_another.items()]
        return car.but(of_another(*core.ties, which=which), *days)

    return change


def core_one_figure_wrong(assembly: str) -> Change:
    """One figure of its number is another."""
    return lambda car: one_figure_wrong(*car.core(assembly).ties)(car)


def core_two_exchanged(assembly: str) -> Change:
    """Two neighbouring figures of its number are exchanged."""
    return lambda car: two_exchanged(*car.core(assembly).ties)(car)


def core_number(assembly: str, sign: str) -> Change:
    """Its number is worn away (?), gone (~), or was never struck (_)."""
    return lambda car: car.but(*(says(mark, **_all(sign, car)) for mark in car.core(assembly).ties))


def core_look(assembly: str, outcome: str) -> Change:
    """How the metal round its number appears."""
    return lambda car: car.but(
        *(looks(_site(car, mark), outcome) for mark in car.core(assembly).ties)
    )


def core_again(assembly: str) -> Change:
    """Its number and its dates were read again."""

    def change(car: Car) -> Car:
        core = car.core(assembly)
        return again(*(each for each in (*core.ties, core.cast, core.stamp) if each))(car)

    return change


def core_second_reader(assembly: str) -> Change:
    """A second examiner reads its number as it should be."""

    def change(car: Car) -> Car:
        right = {name: car.values[name] for name in car.near}
        return second_reading(car.core(assembly).tie, **right)(car)

    return change


def core_photographed(assembly: str) -> Change:
    """Its number was seen on a photograph."""
    return lambda car: photographed(*car.core(assembly).ties)(car)


def core_legible(assembly: str, how: str) -> Change:
    """How well its number can be read."""
    return lambda car: noted(legibility=how)(*car.core(assembly).ties)(car)


def core_never_struck(assembly: str) -> Change:
    """Its place was reached, and neither number nor anything else was ever struck there."""
    return _whole_place(assembly, "_")


def core_removed(assembly: str) -> Change:
    """All that was struck at the place of its number is ground off."""
    return lambda car: car.but(_whole_place(assembly, "~"), core_look(assembly, "disturbed"))


def _whole_place(assembly: str, sign: str) -> Change:
    """This sign for every character of every mark at the place of a core's number."""

    def change(car: Car) -> Car:
        values = {name: sub(r"[^ |]", sign, value) for name, value in car.values.items()}
        sites = {_site(car, mark) for mark in car.core(assembly).ties}
        texts = {
            mark: sub(r"[^ |~]", sign, typed[0].text.format_map(values))
            for mark, typed in car.readings.items()
            if _site(car, mark) in sites
        }
        return car.but(*(says(mark, text) for mark, text in texts.items()))

    return change


def core_unseen(assembly: str) -> Change:
    """Nothing on it was looked for."""

    def change(car: Car) -> Car:
        marks = book_of(car.book).marks
        return unseen(*(each.id for each in marks if each.assembly == assembly))(car)

    return change


def core_late(assembly: str) -> Change:
    """It was cast four months after the car."""
    return lambda car: says(car.core(assembly).cast, car.core(assembly).late)(car)


def core_early(assembly: str) -> Change:
    """It was cast eight months before the car."""
    return lambda car: says(car.core(assembly).cast, car.core(assembly).early)(car)


def core_stamped_before_cast(assembly: str) -> Change:
    """Its day of assembly lies a fortnight before its casting."""
    return lambda car: says(car.core(assembly).stamp, car.core(assembly).before_cast)(car)


# ---------------------------------------------------------------- what bears the identity


def hidden_of_another(which: int = 0, at: slice = slice(1)) -> Change:
    """The hidden numbers in these places are another car's, clear."""
    return lambda car: of_another(*car.hidden[at], which=which)(car)


def hidden_one_figure_wrong(at: slice = slice(None)) -> Change:
    """One figure of the hidden numbers in these places is another."""
    return lambda car: one_figure_wrong(*car.hidden[at])(car)


def hidden_legible(how: str, at: slice = slice(1)) -> Change:
    """How well the hidden numbers in these places can be read."""
    return lambda car: noted(legibility=how)(*car.hidden[at])(car)


def hidden_again(at: slice = slice(None)) -> Change:
    """The hidden numbers in these places were read again."""
    return lambda car: again(*car.hidden[at])(car)


def hidden_number(sign: str, at: slice = slice(1)) -> Change:
    """The hidden numbers in these places are worn away (?), gone (~) or never struck (_)."""
    return lambda car: car.but(*(says(mark, **_all(sign, car)) for mark in car.hidden[at]))


def hidden_look(outcome: str, feature: str = "surface", at: slice = slice(1)) -> Change:
    """How the metal round the hidden numbers in these places appears."""
    return lambda car: car.but(
        *(looks(_site(car, mark), outcome, feature) for mark in car.hidden[at])
    )


def hidden_photographed(at: slice) -> Change:
    """The hidden numbers in these places were seen on photographs."""
    return lambda car: photographed(*car.hidden[at])(car)


def hidden_unseen(at: slice) -> Change:
    """The hidden numbers in these places were not looked for."""
    return lambda car: unseen(*car.hidden[at])(car)


def plate_gone(car: Car) -> Car:
    """The number plate is not there."""
    return car.but(unseen(car.plate), ends(_site(car, car.plate), "absent"))


def plate_of_another(car: Car) -> Car:
    """The number plate bears another car's number."""
    return of_another(car.plate)(car)


def plate_look(outcome: str) -> Change:
    """How the number plate appears."""
    return lambda car: looks(_site(car, car.plate), outcome)(car)


# ------------------------------------------------------------------------- the visit


def all_look(outcome: str) -> Change:
    """Every site that was seen appears so."""
    return lambda car: replace(
        car, looks={**car.looks, **{(site, "surface"): outcome for site in sites_seen(car)}}
    )


def _of_kind(car: Car, *kinds: MarkKind) -> tuple[str, ...]:
    marks = {mark.id: mark for mark in book_of(car.book).marks}
    return tuple(mark for mark in car.readings if marks[mark].kind in kinds)


def without_papers(car: Car) -> Car:
    """No paper is in hand."""
    return unseen(*_of_kind(car, MarkKind.PAPER))(car)


def only(*marks: str) -> Change:
    """Nothing was read but these marks."""
    return lambda car: unseen(*(each for each in car.readings if each not in marks))(car)


def plate_alone(car: Car) -> Car:
    """Nothing was read but the number plate."""
    return only(car.plate)(car)


def nothing_noted(car: Car) -> Car:
    """A claim, and nothing seen."""
    return replace(car, readings={})
