"""What can be wrong with an entry of the claim that only the page asks for."""

from witnessmark.problem import Problem


class NotOfAHundred(Problem):
    """A number of cars that is no share of a hundred."""

    value: str
    says = "{value!q} is no number of cars out of a hundred"
    wants = "more than 0 and less than 100, such as 30 or 99.5"


class EntriesMoved(Problem):
    """An entry whose place in its list is another by now."""

    entry: str
    says = "somebody has added or removed a {entry} meanwhile, and nothing was changed here"
    wants = "this page opened again; what you typed can be copied from here first"


class WithoutBook(Problem):
    """An entry into a case whose book cannot be opened."""

    says = "the code book of this case cannot be opened, so nothing else can be entered"
    wants = "another code book, chosen above"
