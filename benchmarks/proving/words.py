"""The sentences of docs/proving.md."""

from benchmarks.proving.evidence import Found


def opening(found: Found, day: str) -> str:
    """What the page is, from which run, and what the worlds are."""
    run = found.run
    errors = ", ".join(f"{question} {error:.2f}" for question, error in found.bank_error.items())
    errors = errors or "(not calculated)"
    worlds = "\n".join(f"- **{each.world.name}**: {each.world.says}." for each in found.worlds)
    return f"""# The proving ground

Is the weighing right? Here it is tested on cars whose true history is known, because they are
invented: a simulator builds them, lets them live, lets some people deceive and others look,
and keeps the truth in a separate file. The figures are from a run of {day}:

    python -m benchmarks.proving --cases {run.cases} --training {run.training} \\
        --bank {run.bank} --bands {run.bands} --draws {run.draws} --seed {run.seed}

{run.cases} cars in each of {len(found.worlds)} worlds; bands of the first {run.bands} of
each. `make prove` is the small run, `make prove CASES=1500` a long one. `python -m
benchmarks.proving --write DIR --world saloon --cases 20` writes ordinary case folders with
`truth.json` beside them, and `witnessmark examine DIR/* --csv` weighs them.

## What the worlds are

Written separately from the weighing, with rates of their own, in `benchmarks/proving/`:

{worlds}

- **Cars with numbers of their own** (`factory.py`, `lives.py`, `limit.py`): the demonstration
  maker until 1959. Numbers follow days along wandering curves, parts wait in stock, cars
  stand unsold.
- **Cars whose structure bears the number** (`benchmarks/proving/numbered/`): the unit-bodied
  saloon of 1960 and 1961, and an invented maker whose frame bears the identity, both with the
  number on engine and gearbox too; and one whose floor pan bears it alone, with engines that a
  certificate names and that the works strike again.
  Ten stories: kept (with swaps,
  service blocks, exchange engines, decked pads), an engine hunted to fit, one made to match,
  a plain car dressed as the costly one, a breaker's panel, moved to another shell openly or
  to pass (struck over, let in, ground off), joined from two, a new frame or shell struck by
  the office, another whole car. Papers of another car, papers made to fit.
- **Visit** (`visit.py`, `reading.py`): wear of the whole car, characters lost, unsure and
  misread, no lift, places not looked for, photographs, a second reader who shares some of the
  first one's mistakes.

Rare kinds are drawn more often than they would be met, and weighted down accordingly.

**The limit** is the exact answer of somebody who knows every rate and curve of the world and
sees what the examiner saw. For numbered makers nothing in it is estimated from a sample. For the
others, how often the events of a life occur is counted in {run.bank:,} lives; two samples
differ, root mean square in log10 LR, by {errors}. What it knows and the tool does not: number
against day is worth 4 % of the gap for identity and 16 % for the engine; panels replaced
together are the largest part; the rest is how many people restore, how many deceive, and how well.

**The rival** is a logistic regression on all findings that learns from {run.training} other
cars of the same maker's plain world and is applied everywhere.
"""


HOW_TO_READ = """\
Cllr is the log-likelihood-ratio cost (Brümmer and du Preez 2006, Computer Speech & Language
20): 0 is perfect, 1 is what saying nothing costs, in bits. In brackets is the 95 % bootstrap
interval; *times* is the tool's Cllr over the limit's. *configuration* covers the answers about all
claimed items that can differ: package, engine type, paint, trim, axle ratio. *wrong > 100*:
of all cars of the world, those given an LR beyond 100 on the wrong side (a calibrated LR does
so in at most one false case in a hundred: Royall 2000, Journal of the American Statistical
Association 95). *right > 10*: the mean over true and false cases of the share beyond 10 on
the right side.
"""

AIMS = """\
Set before the run and not changed since.
"""

BANDS = """\
What a ratio says against how often ratios like it were right: *observed* is the log10 of the
share of true cases over the share of false cases that were given it (*beyond*: no false case
had it; *below*: no true one). The aim is at least half of what is stated, a difference of
0.3.
"""

ENDS = """\
The same for the band's end nearer 1, which decides the words (`good forgers` left out: there
page one says that all hands may be skilled, and no band covers it).
"""

STORIES = """\
Median and middle 80 % of log10 LR.
"""

CANNOT = """\
Said of an item about which nothing on the car could have shown otherwise. It is right if the
exact answer to the same findings is within 3 either way too; where it is not, other items or the
kind of car give it away.
"""

BREAKS = """\
The strongly misleading answers that occur most often, at most four for each world.
"""

CLOSING = """\
## What this does not show

- The worlds are invented. That the tool does well in them does not show that it does well on
  real cars: no rate of real restoration, deceit or misreading is published, and the plain
  rates are of the order that the tables assume because there was nothing else to take them
  from. The stressed worlds show what happens when that is wrong, in the directions that were
  thought of.
- The tool's ratios are capped at 10,000 either way as in a report; the limit's and the
  rival's are not.
- The examiners of the worlds report what they see. None lies, and none expects an answer and reads
  it into the metal. Nobody declares anything, and nothing is read again.
- Figures from few cases are rough: see the intervals. A rate of 0 in n cases only says that it
  is most likely under 3/n.
"""
