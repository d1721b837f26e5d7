"""What the examiner takes as known: prior odds, own values for assumed rates, vouched rows."""

from witnessmark.catalogue import said
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Bullets, Heading
from witnessmark.wording import Names, odds_text
from witnessmark.wording.amounts import capital, rate_text, sentence
from witnessmark.wording.case_words import question_words
from witnessmark.wording.conclusions import row_words
from witnessmark.wording.vouching import vouched_sentence


def taken_as_known(opinion: Opinion, names: Names) -> list[Block]:
    """What the examiner has stated: prior odds and other values for assumed rates, with reasons."""
    stated = opinion.casefile.circumstances
    lines = [
        said(
            "Prior odds for {question}: {odds}. {reason}",
            question=question_words(each.question, names),
            odds=odds_text(each.odds),
            reason=sentence(each.reason),
        )
        for each in stated.prior_odds
    ]
    lines += [
        said(
            "{row}: {share}. {reason}",
            row=capital(row_words(each.row)),
            share=rate_text(each.value),
            reason=sentence(each.reason),
        )
        for each in stated.overrides
    ]
    lines += [vouched_sentence(each) for each in stated.vouched]
    if stated.notes:
        lines.append(stated.notes)
    told = tuple(lines) or (said("No prior odds are stated."),)
    return [Heading(said("What the examiner takes as known")), Bullets(told)]
