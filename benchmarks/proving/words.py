"""The sentences of docs/proving.md."""

from benchmarks.proving.evidence import Found


def opening(found: Found, day: str) -> str:
    """What the page is, from which run, and what the world is."""
    run = found.run
    errors = ", ".join(f"{question} {error:.2f}" for question, error in found.bank_error.items())
    return f"""# The proving ground

Is the weighing right? Here it is tried on cars of which the truth is known, because they
are invented: a simulator builds them, lets them live, lets some people deceive and others
look, and keeps the truth in a separate file. The figures are of a run of {day}:

    python -m benchmarks.proving --cases {run.cases} --training {run.training} \\
        --bank {run.bank} --seed {run.seed}

{run.cases} cars in each of {len(found.worlds)} worlds; `make prove` is the small run (under
5 minutes on two cores), `make prove CASES=1500` a long one. `python -m benchmarks.proving
--write DIR --cases 20` writes ordinary case folders with `truth.json` beside them.

## What the world is

Written apart from the weighing, with rates of its own, in `benchmarks/proving/`:

- **factory** (`factory.py`, `car.py`): chassis numbers run with a pace that wanders against
  the calendar; engines, gearboxes, axles and bodies are numbered on the day they are made,
  out of order by a few, and wait in stock, some for months; finished cars stand unsold;
  paint, trim and axle go together as customers liked;
- **lives** (`lives.py`): kept cars with exchange engines, parts-car engines, service panels,
  panels from one parts car, refitted plates, honest re-strikes; cars reframed openly;
  cars muddled with another; **deceivers** who are crude, practised or learned, know some
  places of a car and not others, and match an engine, dress a plain car, rebuild one
  under its papers or clone it whole; one restoration leaves its trace on all of a car;
- **visit** (`visit.py`, `reading.py`): wear of the whole car, characters lost, unsure and
  misread, slips of the punch of which half were corrected, no lift, places not looked
  for, photographs, a second reader who shares some of the first one's mistakes.

Kinds of life are drawn with shares of their own and weighed back to how often they are met.

**The limit** (`limit.py`) is the exact answer of somebody who knows every rate and curve of
the world and sees what the examiner saw. It knows more than any tool can: the curves along
which numbers wander against days, how many restore, how many deceive and how well. Only
how often the parts of a life come about is counted in a sample ({run.bank:,} lives); two samples
differ, root mean square in log10 LR, by
{errors}.

**The rivals** learn from {run.training} cars of the plain world and are applied everywhere: the
rule that all numbers agree (as a likelihood ratio, from how often it holds), a count of
red flags, and a logistic regression on all findings.
"""


HOW_TO_READ = """Cllr is the log-likelihood-ratio cost (Brümmer and du Preez 2006, Computer Speech &
Language 20): 0 is perfect, 1 is what saying nothing costs, in bits. It is the sum of a part
that no recalibration could mend (discrimination) and one that it could (calibration). In
brackets the 95 % interval by bootstrap.
"""

MISLEADING = """Wrong > 100: of all cars of the world, those given an LR beyond 100 on the wrong
side. A calibrated LR does so in at most one false case in a hundred (Royall 2000, Journal of the
American Statistical Association 95). Right > 10: the mean over true and false cases of the
share beyond 10 on the right side.
"""

AIMS = """Set before the first run and not moved since. Most are not met. Of the tool's cost in the
plain world little is calibration (first table), so other rates would mend little: what is left
is what the limit knows and the tool does not weigh, above all the day on which a number was
struck. For configuration it is the share of differences that no code shows: it caps what
agreeing codes can say at about ten, on purpose (decisions/0011).
"""

BANDS = """x"""
ENDS = """x"""
STORIES = """Median and middle 80 % of log10 LR.
"""

CANNOT = """Said where identity is within 3 either way and no look within reach could move it
beyond. It is right if the exact answer to the same findings is within 3 as well; and it
holds if the tool stays within 3 once every place within reach has been looked at.
"""

BREAKS = """The strongly misled cases of identity, configuration and engine that are met most often,
four a world at most, with what their reports show. Bounds that reach even warn the reader;
where they do not, he is misled by the report too.

What recurs: an engine matched by a good hand, where everything agrees and looks right, and only
a casting date or the number's day would tell; a shell with two panels from one parts car
(the tool takes them for two accidents); papers and plate made to fit together. With all
rows wrong at once it is strongly misled most often; the report then shows bounds that reach
even in most cases, and the leading assumption by name. In `good forgers` identity costs
little less than saying nothing: what does not show cannot be weighed.
"""

CLOSING = """## What this does not show

- The world is invented. That the tool does well in it does not show that it does well on
  real cars: no rate of real restoration, deceit or misreading is published, and the plain
  world's rates are of the order that the tables assume because there was nothing else
  to take them from. The stressed worlds say what happens when that is wrong, in the
  directions that were thought of.
- What cars not built as claimed differ in is a colour, a trim, an axle, or colour and trim; a
  plain car dressed as another *model* is not in the world, since its chassis number lies in
  another series.
- The tool's ratios are capped at 10,000 either way as in a report; the limit's and the
  rivals' are not.
- The examiners of the world tell what they see. None lies, none expects an answer and
  reads it into the metal.
- Photographs, measured stampings and the values of numbers on real surviving cars are
  not in the world.
- Figures of few cases are rough: see the intervals. A rate of 0 in n cases only says that
  it is most likely under 3/n.
- The bounds are not scored as such: they hold by construction for wrong rows, and only by
  luck for wrong structure. The table of misled cases shows where they do not reach.
"""
