"""A code that was read was in use at this works, for this model and year."""

from dataclasses import replace

from witnessmark.agreement import Outcome
from witnessmark.agreement.rules.code_of_its_years import compare
from witnessmark.codebook.listed import ListIs

SALOON = {"model": "solent-saloon", "model_year": "1955", "body_works": "ellery"}


def of(findings, topic):
    """The one finding on this item."""
    [found] = [each for each in findings if each.topic == topic]
    return found


def test_a_code_in_use_for_the_claimed_car_agrees(car):
    found = of(compare(car(plate_brass="SP|700137|40033|18|L2|390|_")), "paint")
    assert found.outcome is Outcome.AGREE
    assert "The book lists 18 for 1954 to 1957, only Solent Sprint." in found.observation


def test_a_code_in_use_only_in_other_years_differs_and_those_years_are_named(car):
    found = of(compare(car(SALOON, plate_brass="SA|550123|11900|21|C1|410|_")), "paint")
    assert found.outcome is Outcome.DIFFER
    assert "21 for 1957 to 1961" in found.observation
    assert found.inference == ("Code 21 is not consistent with the works, model and year claimed.")


def test_a_list_known_to_have_gaps_decides_nothing_by_the_years_it_has(car, book):
    def with_gaps(mark):
        return replace(mark, fields=tuple(replace(f, listed=ListIs.PARTIAL) for f in mark.fields))

    gapped = replace(book, marks=tuple(map(with_gaps, book.marks)))
    found = of(
        compare(car(SALOON, of_book=gapped, plate_brass="SA|550123|11900|21|C1|410|_")), "paint"
    )
    assert found.outcome is Outcome.UNDECIDED
    assert "21 for 1957 to 1961" in found.observation
    assert "known to have gaps" in found.inference


def test_a_code_of_another_model_differs(car):
    found = of(compare(car(SALOON, plate_brass="SA|550123|11900|18|C1|410|_")), "paint")
    assert found.outcome is Outcome.DIFFER
    assert "only Solent Sprint" in found.observation


def test_a_code_that_the_book_does_not_list_is_silent_and_no_fault_of_the_car(car):
    found = of(compare(car(SALOON, plate_brass="SA|550123|11900|40|C1|410|_")), "paint")
    assert found.outcome is Outcome.SILENT
    assert found.agreement_share is None
    assert "40 (not listed in this book)" in found.observation
    assert "the car is not at fault" in found.inference


def test_a_code_with_two_meanings_is_taken_for_the_year_of_the_car(car):
    """14 was Fen Green to 1955 and Pine Green from 1956."""
    found = of(compare(car(SALOON, plate_brass="SA|550123|11900|14|C1|410|_")), "paint")
    assert found.outcome is Outcome.AGREE
    assert "14 for 1952 to 1955" in found.observation
    assert "1956" not in found.observation


def test_a_half_worn_code_is_undecided(car):
    found = of(compare(car(SALOON, plate_brass="SA|550123|11900|[12]1|C1|410|_")), "paint")
    assert found.outcome is Outcome.UNDECIDED


def test_a_worn_code_and_an_empty_field_give_no_finding(car):
    findings = compare(car(SALOON, plate_brass="SA|550123|11900|??|C1|410|_"))
    assert {"paint", "extras"} & {each.topic for each in findings} == set()
