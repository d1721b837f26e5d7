"""Numbers of the forms that the real books give, masked: serials go, codes stay.

The numbers are invented.
"""

import re
from datetime import date

import pytest

from tests.worked.found_in_pdf import read_pdf, serials, squeezed
from witnessmark.casefile import case_from
from witnessmark.codebook import find_book, open_book
from witnessmark.examination import BookVersion, examine
from witnessmark.report import report_text
from witnessmark.report.mask.copied import masked_copy, print_masked_copy
from witnessmark.report.mask.opinion import masked

PRINTED = date(2026, 11, 25)
CASES = {
    "chevrolet-1964-1972": (
        {"sequence": "506071", "model": "camaro", "model_year": "1969", "works": "norwood"},
        {
            "number_plate": "124379N506071",
            "body_plate_norwood_1969": "69|1|24|37|NOR|614725|REAR|711|71|71|12A|_",
            "partial_number_engine": "19N5[06]6071",
            "engine_pad": "V1118DZ",
        },
        "124379N506071",
        {"number_plate": "124379N••••••", "engine_pad": "V1118DZ"},
    ),
    "ford-1964-1973": (
        {"unit_number": "123451", "model": "mustang", "model_year": "1967", "works": "san-jose"},
        {"apron_stamp": "7R01K123451", "engine_stamp": "7R123451", "block_date": "6J12"},
        "7r01k 123 451",
        {"apron_stamp": "7R01K••••••", "engine_stamp": "7R••••••", "block_date": "6J12"},
    ),
    "volkswagen-1950-1979": (
        {"chassis_number": "2041236", "model": "kombi", "model_year": "1972"},
        {
            "bus_number_1970": "232 2 041 236",
            "bus_type_plate_1970": "23-517 | 232 2 041 236",
            "m_plate_1970": "22 041 236\n227 506 517\n060640 616\n44 3 7123 UB 2319 31",
            "engine_lettered": "CB 0 031 455",
            "works_certificate_1970": "232 2 041 236 | CB 0 031 455 | 03.11.1971 | 19.11.1971",
        },
        "232 2 041 236",
        {"bus_type_plate_1970": "23517 | 232 • ••• •••", "engine_lettered": "CB • ••• •••"},
    ),
    "jaguar-1948-1974": (
        {"chassis_number": "850512", "model": "e-type-38-open", "model_year": "1962"},
        {
            "front_frame_number_38": "850512",
            "data_plate_38": "850512 | R5123-9 | R4872 | EB4021JS",
            "tub_tag_38": "R4872",
            "gearbox_case": "EB4021JS",
        },
        "850512",
        {"data_plate_38": "•••••• | R••••9 | R•••• | EB••••JS", "tub_tag_38": "R••••"},
    ),
}


@pytest.mark.parametrize("book_id", CASES)
def test_serials_go_and_codes_stay(book_id):
    claim, readings, title, shown = CASES[book_id]
    folder = find_book(book_id)
    assert folder is not None
    opened = open_book(folder)
    assert opened.book is not None
    book = opened.book
    case = case_from(
        {
            "format": "witnessmark-case",
            "format_version": 2,
            "id": "real",
            "title": f"Car {title.lower()}",
            "book": book_id,
            "claim": {"made_by": "Perceval Quimby", "text": f"No {title}", "items": claim},
            "readings": [{"mark": mark, "text": text} for mark, text in readings.items()],
            "title_paper": {"number": title},
        }
    )
    version = BookVersion(book.id, book.title, book.version, opened.sha256)
    opinion = examine(case, book, version, steady=False)
    made = masked(opinion, book).opinion
    read = {each.mark: each.reading.as_typed for each in made.decodings}
    assert {mark: read[mark] for mark in shown} == shown
    copy = masked_copy(opinion, book, {}, PRINTED)
    assert copy.problems == ()
    texts = report_text(copy.outline) + read_pdf(print_masked_copy(copy, PRINTED)).texts()
    numbers = {each for each in serials(opinion, book) if len(each) >= 5}
    assert len(numbers) >= 2
    apart = re.sub(r"\d{1,3}(,\d{3})+", "~", texts)
    assert [each for each in numbers if each in squeezed(apart)] == []
    assert "Quimby" not in texts
