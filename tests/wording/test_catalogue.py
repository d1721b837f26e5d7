"""One catalogue of sentences: a translation is one file, and no file can break a page."""

import ast
import runpy
from enum import StrEnum
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.agreement import RULES, Outcome
from witnessmark.casefile import (
    AttachmentSeen,
    Legibility,
    LookClass,
    Orientation,
    OriginSaid,
    PaperKind,
    PaperState,
    Seen,
    SiteState,
    SumKind,
    WorkBy,
    WorkSaid,
)
from witnessmark.catalogue import Catalogue, counted, language, said, speaking
from witnessmark.codebook import Basis
from witnessmark.examination import disclosure
from witnessmark.examination.records import DisclosureOutcome
from witnessmark.problem import Problem
from witnessmark.translation import ForeignField, LostField, NoCatalogue, fields_of, parse_catalogue
from witnessmark.weighing import Standing, assumed_rows
from witnessmark.wording import (
    cautions,
    listed,
    minutes_text,
    shipped_scale,
    spelled,
    standing_limitations,
    term,
)
from witnessmark.wording.terms import TERMS

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "witnessmark"
TEMPLATE = ROOT / "docs" / "catalogue" / "witnessmark.pot"
FIRST_CONSTANTS = {"said": 1, "marked": 1, "counted": 2, "spelled": 2}
"""How many of the first arguments of each must be written out where it is called."""

HEADER = """\
msgid ""
msgstr ""
"Language: de\\n"
"Content-Type: text/plain; charset=UTF-8\\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\\n"

"""
GERMAN = (
    HEADER
    + """\
msgid "The {paper} is lost."
msgstr "Verloren: {paper}."

msgid "{number} minute"
msgid_plural "{number} minutes"
msgstr[0] "{number} Minute"
msgstr[1] "{number} Minuten"

msgid "{words} and {last}"
msgstr "{words} und {last}"

#, fuzzy
msgid "Lifting"
msgstr "Liften"
"""
)
THREE_FORMS = r"""msgid ""
msgstr ""
"Language: pl\n"
"Plural-Forms: nplurals=3; plural=(n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 "
": 2);\n"

msgid "{number} minute"
msgid_plural "{number} minutes"
msgstr[0] "{number} minuta"
msgstr[1] "{number} minuty"
msgstr[2] "{number} minut"
"""


def catalogue_of(text: str) -> Catalogue:
    found = parse_catalogue(text, "de.po")
    assert isinstance(found, Catalogue), found
    return found


def test_the_template_holds_every_sentence_that_the_program_can_say():
    """Write it again with `make docs`."""
    fresh = runpy.run_path(str(ROOT / "bin" / "catalogue"))["template"]()
    assert TEMPLATE.read_text("utf-8") == fresh


def test_every_message_is_written_out_where_it_is_said():
    """What is composed first cannot be found for the catalogue; `as_said` is for tables."""
    composed = [
        f"{module.relative_to(ROOT)}:{call.lineno}"
        for module in sorted(PACKAGE.rglob("*.py"))
        if module.name not in ("catalogue.py", "amounts.py")
        for call in calls(ast.parse(module.read_text("utf-8")))
        if not all(is_text(each) for each in call.args[: FIRST_CONSTANTS[name_of(call)]])
    ]
    assert composed == []


def test_a_message_names_all_that_is_filled_in_and_fills_in_all_that_it_names():
    wrong = [
        f"{module.relative_to(ROOT)}:{call.lineno} {sorted(wanted ^ given)}"
        for module in sorted(PACKAGE.rglob("*.py"))
        if module.name not in ("catalogue.py", "amounts.py")
        for call in calls(ast.parse(module.read_text("utf-8")))
        if name_of(call) != "marked" and call.keywords and all(each.arg for each in call.keywords)
        for wanted, given in [(wanted_by(call), {str(each.arg) for each in call.keywords})]
        if wanted != given
    ]
    assert wrong == []


def calls(tree: ast.Module) -> list[ast.Call]:
    """The calls of the functions that take a message, by their bare name."""
    found = [node for node in ast.walk(tree) if isinstance(node, ast.Call)]
    return [call for call in found if name_of(call) in FIRST_CONSTANTS]


def name_of(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else ""


def is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def wanted_by(call: ast.Call) -> set[str]:
    """The names in a call's messages that are filled in from its keywords."""
    texts = [arg.value for arg in call.args if isinstance(arg, ast.Constant)]
    names = set().union(*(fields_of(text) or () for text in texts if isinstance(text, str)))
    return names - {"said": set(), "counted": {"number"}, "spelled": {"count"}}[name_of(call)]


def test_the_words_of_the_shipped_tables_are_in_the_template():
    text = TEMPLATE.read_text("utf-8").replace('"\n"', "")
    for band in shipped_scale().bands:
        assert f'msgid "{band.words}"' in text
    for row in assumed_rows():
        assert row.plain in text
        assert row.reason.replace('"', '\\"') in text


def test_a_translation_is_one_text():
    german = parse_catalogue("\ufeff" + GERMAN, "de.po")
    assert isinstance(german, Catalogue)
    with speaking(german):
        assert language() == "de"
        assert said("The {paper} is lost.", paper="Karte") == "Verloren: Karte."
        assert [minutes_text(n) for n in (1, 2)] == ["1 Minute", "2 Minuten"]
        assert listed(("a", "b")) == "a und b"
    assert language() == "en"
    assert minutes_text(2) == "2 minutes"


def test_what_a_translation_lacks_stays_english_and_what_it_marks_as_unsure_too():
    english = (cautions(), standing_limitations())
    with speaking(catalogue_of(GERMAN)):
        assert (cautions(), standing_limitations()) == english


def test_a_language_has_as_many_forms_as_it_needs():
    with speaking(catalogue_of(THREE_FORMS)):
        texts = [minutes_text(n) for n in (1, 2, 5, 22, 119)]
    assert texts == ["1 minuta", "2 minuty", "5 minut", "22 minuty", "119 minut"]


@pytest.mark.parametrize("rule", ["n/0", "n %", "while", "9" * 2000, "n-7", "n*9"])
def test_a_plural_rule_that_is_none_is_no_fault_of_the_page(rule):
    text = THREE_FORMS.replace(THREE_FORMS.split("plural=(")[1].split(");")[0], "n")
    found = catalogue_of(text.replace("plural=(n)", f"plural={rule}"))
    with speaking(found):
        assert minutes_text(2).startswith("2 minut")


def test_a_sentence_may_repeat_a_name_and_turn_them_round():
    text = HEADER + 'msgid "{a} and {b}"\nmsgstr "{b}, {a}, {b}"\n'
    with speaking(catalogue_of(text)):
        assert said("{a} and {b}", a="1", b="2") == "2, 1, 2"


def test_a_sentence_that_loses_what_was_found_is_a_problem_with_its_line():
    text = HEADER + 'msgid "{a} and {b}"\nmsgstr "{b}, {b}"\n'
    found = parse_catalogue(text, "de.po")
    assert isinstance(found, LostField)
    assert found.source.text == 'msgstr "{b}, {b}"'
    assert found.render().startswith("de.po:8:8: the translation of '{a} and {b}' leaves out")
    assert "{a} in it" in found.render()


def test_a_form_of_a_counted_sentence_may_say_the_number_itself_and_lose_nothing_else():
    text = HEADER + (
        'msgid "{number} mark of {part}"\nmsgid_plural "{number} marks of {part}"\n'
        'msgstr[0] "ein Zeichen: {part}"\nmsgstr[1] "{number} Zeichen: {part}"\n'
    )
    with speaking(catalogue_of(text)):
        texts = [counted("{number} mark of {part}", "", n, part="x") for n in (1, 2)]
    assert texts == ["ein Zeichen: x", "2 Zeichen: x"]
    found = parse_catalogue(text.replace("ein Zeichen: {part}", "ein Zeichen"), "de.po")
    assert isinstance(found, LostField)
    assert found.source.text == 'msgstr[0] "ein Zeichen"'


@pytest.mark.parametrize(
    ("entry", "shown"),
    [
        ('msgid "Lifting"\nmsgstr "Liften"\n', "Liften"),
        ('msgid "Lifting"\nmsgstr ""\n', "Lifting"),
        ('msgid "Lifting"\nmsgstr "  "\n', "Lifting"),
        ('#, fuzzy\nmsgid "Lifting"\nmsgstr "Liften"\n', "Lifting"),
        ('#~ msgid "Lifting"\n#~ msgstr "Liften"\n', "Lifting"),
    ],
)
def test_a_sentence_that_is_empty_unsure_or_struck_out_stays_english(entry, shown):
    with speaking(catalogue_of(f'{HEADER}msgid "first"\nmsgstr "1"\n\n{entry}')):
        assert (said("first"), said("Lifting")) == ("1", shown)


def test_a_counted_sentence_with_an_empty_form_stays_english_in_all_of_them():
    text = THREE_FORMS.replace('"{number} minuty"', '""') + '\nmsgid "first"\nmsgstr "1"\n'
    with speaking(catalogue_of(text)):
        assert [minutes_text(n) for n in (1, 2, 5)] == ["1 minute", "2 minutes", "5 minutes"]


def test_where_a_form_is_missing_the_last_one_stands_and_one_too_many_is_never_used():
    fewer = THREE_FORMS.replace('msgstr[2] "{number} minut"\n', "")
    with speaking(catalogue_of(fewer)):
        assert [minutes_text(n) for n in (1, 2, 5)] == ["1 minuta", "2 minuty", "5 minuty"]
    with speaking(catalogue_of(THREE_FORMS + 'msgstr[3] "{number} x"\n')):
        assert [minutes_text(n) for n in (1, 2, 5)] == ["1 minuta", "2 minuty", "5 minut"]


def test_the_text_is_utf_8_whatever_the_header_says():
    for charset in ("ISO-8859-1", "none-such", "CHARSET"):
        text = GERMAN.replace("charset=UTF-8", f"charset={charset}").replace("Verloren", "Verlören")
        with speaking(catalogue_of(text)):
            assert said("The {paper} is lost.", paper="Karte") == "Verlören: Karte."


@pytest.mark.parametrize(
    "translated",
    ["{c}", "{", "}", "{}", "{0}", "{a.__class__}", "{a[0]}", "{a!r}", "{a:>999999999}", "{a:{b}}"],
)
def test_braces_that_are_not_those_of_the_sentence_are_a_problem_with_its_line(translated):
    text = HEADER + f'msgid "first"\nmsgstr "1"\n\nmsgid "{{a}} and {{b}}"\nmsgstr "{translated}"\n'
    found = parse_catalogue(text, "de.po")
    assert isinstance(found, ForeignField)
    assert found.source.line is not None
    assert found.source.text == text.splitlines()[found.source.line - 1]
    assert found.source.text == f'msgstr "{translated}"'
    assert found.source.column is not None
    assert found.source.text[found.source.column - 1] in "{}"
    assert f"de.po:{found.source.line}:{found.source.column}: " in found.render()
    assert "{a}, {b}" in found.render()


@pytest.mark.parametrize(
    "content", ["", "#", HEADER, "hello", "{}", "PK\x03\x04", "msgid", 'msgid "a"\nx\n']
)
def test_a_file_that_is_no_translation_is_a_problem(content):
    found = parse_catalogue(content, "x.po")
    assert isinstance(found, NoCatalogue)
    assert "made from docs/catalogue/witnessmark.pot" in found.render()


def test_a_language_tag_that_is_none_is_unknown():
    for tag in ('"', "x y", "#", "", "12"):
        text = GERMAN.replace("Language: de", f"Language: {tag}".replace('"', '\\"'))
        with speaking(catalogue_of(text)):
            assert language() == "und"
    with speaking(catalogue_of(GERMAN.replace("Language: de", "Language: pt_BR"))):
        assert language() == "pt-BR"


LINES = st.lists(
    st.one_of(
        st.text(max_size=12),
        st.sampled_from(
            [
                'msgid ""',
                'msgid "{a} b"',
                'msgid_plural "{a} bs"',
                'msgstr "{a}"',
                'msgstr ""',
                'msgstr[0] "{a}"',
                'msgstr[1] "x"',
                'msgstr[x] "x"',
                'msgctxt "c"',
                '"Plural-Forms: nplurals=2; plural=n/0;\\n"',
                '"Language: de\\n"',
                '"more"',
                '"\\x"',
                "#, fuzzy",
                "#~ msgid",
                "#: a:1",
                "#| msgid",
                "#",
                "",
            ]
        ),
    ),
    max_size=14,
)


@given(st.one_of(st.text(), LINES.map("\n".join), LINES.map(lambda x: HEADER + "\n".join(x))))
def test_any_text_is_a_translation_or_a_problem(text):
    found = parse_catalogue(text, "any.po")
    if isinstance(found, Problem):
        assert found.render().startswith("any.po")
        return
    with speaking(found):
        for message in [*found.sentences, "{a} b"]:
            own = fields_of(message)
            assert isinstance(said(message, **dict.fromkeys(own or (), "x")), str)
        for number in (0, 1, 2, 5):
            assert isinstance(counted("{a} b", "{a} bs", number, a="x"), str)
            assert isinstance(spelled("{a} b", "{a} bs", number, a="x"), str)


@given(st.dictionaries(st.sampled_from("abc"), st.text()))
def test_what_is_filled_in_is_never_read_as_part_of_the_sentence(values):
    text = "".join(f"<{{{name}}}>" for name in values)
    assert said(text, **values) == "".join(f"<{value}>" for value in values.values())


def test_every_fixed_word_of_a_page_is_one_that_can_be_translated():
    kinds: tuple[type[StrEnum], ...] = (SiteState, Seen, AttachmentSeen, Legibility, Orientation)
    kinds += (
        LookClass,
        PaperKind,
        PaperState,
        PaperKind,
        Basis,
        Outcome,
        OriginSaid,
        WorkSaid,
        SumKind,
        Standing,
        DisclosureOutcome,
    )
    words = {word.value for kind in kinds for word in kind if word.value}
    assert set(disclosure.BY_WORDS) == {each for each in WorkBy if each.value}
    assert words == set(TERMS)
    assert term(SiteState.NOT_LOOKED_FOR) == "not looked for"


def test_every_rule_has_a_name_that_can_be_translated():
    template = TEMPLATE.read_text("utf-8")
    assert [rule.name for rule in RULES if f'\nmsgid "{rule.name}"\n' not in template] == []
    assert [rule.name for rule in RULES] == [rule.id.replace("_", " ") for rule in RULES]


@pytest.mark.parametrize("sign", ["\ue000", "\ue002", "\uf8ff"])
def test_a_translation_with_private_signs_is_refused(sign):
    """The masked copy holds places by such signs, and no font shows them."""
    head = 'msgid ""\nmsgstr "Language: de\\n"\n'
    text = f'{head}\nmsgid "{{first}} to {{last}}"\nmsgstr "{sign}{{first}} bis {{last}}"\n'
    found = parse_catalogue(text, "de.po")
    assert isinstance(found, NoCatalogue)
    assert "private signs" in found.sentence()
