"""What can be wrong with a file that is brought in: one class a kind, its sentence written once."""

from witnessmark.problem import Problem


class NothingSent(Problem):
    """The form without a file."""

    says = "no file was chosen"
    wants = "a case as a zip of its folder, or its case.json alone"


class NeitherZipNorCase(Problem):
    """A file of another kind."""

    name: str
    says = "{name!q} is neither a zip nor a case document"
    wants = "a case as a zip of its folder, or its case.json alone"


class HistoryBroken(Problem):
    """Revisions beside a case that do not follow each other, or are of another case."""

    count: int
    says = "its {count} revisions do not follow each other, or are of another case"
    wants = "the folder as it was written; or its case.json alone, which begins a new history"


class ZipBroken(Problem):
    """A zip that cannot be unpacked."""

    name: str
    says = "{name!q} cannot be unpacked: it is damaged, locked or packed in an unusual way"
    wants = "a zip as any system makes it, without a password"


class ZipWithoutCase(Problem):
    """A zip that holds no case, or several."""

    name: str
    count: int
    says = "{name!q} holds {count} case documents"
    wants = "one folder with a case.json in it"


class ZipLeadsOut(Problem):
    """A name in a zip that leads out of its folder."""

    name: str
    says = "{name!q} in the zip leads out of its folder, and nothing was unpacked"


class ZipTooLarge(Problem):
    """A zip that unpacks to more than a case has."""

    what: str
    most: int
    says = "the zip holds more than a case has"
    wants = "at most {most} {what}"
