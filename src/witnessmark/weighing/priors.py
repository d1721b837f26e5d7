"""The tables of the network that need no evidence: bearer, deceit, configuration,
assemblies, and the source and attachment of each mark, plate and paper.

Axes: bearer B (own, not own); another car whole W; deceit D (none, crude, skilled);
worked over R; configuration C
(as claimed; one claimed code differs, which; several; not as claimed, and no code
shows it); an assembly A
(own, not own); a node's state S.
"""

from collections.abc import Mapping

from witnessmark.codebook.records import AssemblyKind
from witnessmark.weighing import nodes as n
from witnessmark.weighing.nodes import Node, NodeKind
from witnessmark.weighing.rows import Row, RowValues, Table

DECEIT = ("none", "crude", "skilled")
BEARER_OR_ASSEMBLY = ("own", "not_own")
MODEL_ITEM = "model"
AS_CLAIMED = 0
"""The first state of C; then one for every claimed code that may differ, one for several of
them, and last the one that no code shows."""


class TableMaker:
    """Makes tables from one case's rows.

    `code_items` are the codes that the claim states and some mark shows.
    """

    def __init__(self, values: RowValues, code_items: tuple[str, ...] = ()) -> None:
        self.code_items = code_items
        self.rows: tuple[Row, ...] = values.rows
        self.index: Mapping[str, int] = values.index()

    @property
    def configurations(self) -> int:
        """The states of C: as claimed, one for each code that differs, several, hidden."""
        return 2 + len(self.code_items) + int(self.has_several)

    @property
    def has_several(self) -> bool:
        """Are there codes enough that several can differ?"""
        return len(self.code_items) > 1

    def is_several(self, configuration: int) -> bool:
        """Is this the state of C in which several codes differ?"""
        return self.has_several and configuration == 1 + len(self.code_items)

    def put(self, table: Table, where: tuple[int, ...], entries: dict[int, str], rest: int) -> None:
        """Set one distribution by row ids."""
        table.put(where, entries, rest, self.index, self.rows)

    def put_spread(
        self, table: Table, where: tuple[int, ...], entries: dict[int, str], rests: tuple[int, ...]
    ) -> None:
        """Set one distribution by row ids, what is left evenly over several states."""
        table.put_spread(where, entries, rests, self.index, self.rows)

    def put_others(
        self, table: Table, where: tuple[int, ...], row: str, rest: int, others: tuple[int, ...]
    ) -> None:
        """Set one distribution in which a row is shared evenly by several states."""
        place = self.index[row]
        value = self.rows[place].value
        for other in others:
            table.base[(*where, other)] = value / len(others)
            table.row_index[(*where, other)] = place
        table.base[(*where, rest)] = 1.0 - value

    def bearer(self) -> Table:
        """P(B), shape (2,)."""
        table = Table((2,))
        self.put(table, (), {1: "bearer.not_own"}, 0)
        return table

    def deceit(self) -> Table:
        """P(D | B), shape (2, 3)."""
        table = Table((2, 3))
        for b, name in enumerate(BEARER_OR_ASSEMBLY):
            self.put(table, (b,), {1: f"deceit.{name}.crude", 2: f"deceit.{name}.skilled"}, 0)
        return table

    def configuration(self) -> Table:
        """P(K | B, D), shape (2, 3, 2): K, built as claimed or not."""
        table = Table((2, 3, 2))
        for b, name in enumerate(BEARER_OR_ASSEMBLY):
            for d, deceit in enumerate(DECEIT):
                kind = "none" if deceit == "none" else "deceit"
                self.put(table, (b, d), {1: f"configuration.not.{name}.{kind}"}, 0)
        return table

    def showing(self) -> Table:
        """P(C | K), shape (2, configurations): which code shows that the car was built
        otherwise, if any does."""
        table = Table((2, self.configurations))
        table.put_certain((0,), AS_CLAIMED)
        hidden = self.configurations - 1
        if not self.code_items:
            table.put_certain((1,), hidden)
            return table
        entries = {hidden: "codes.hidden"}
        rests = [1 + k for k in range(len(self.code_items))]
        if MODEL_ITEM in self.code_items and len(self.code_items) > 1:
            model = 1 + self.code_items.index(MODEL_ITEM)
            entries[model] = "codes.differs.model"
            rests.remove(model)
        if self.has_several:
            entries[hidden - 1] = "codes.differs.several"
        self.put_spread(table, (1,), entries, tuple(rests))
        return table

    def series(self) -> Table:
        """P(the car's own number follows its series, or is out of them), shape (2,)."""
        table = Table((2,))
        self.put(table, (), {1: "series.out"}, 0)
        return table

    def worked_over(self) -> Table:
        """P(R), shape (2,): left as it was, or taken apart and painted anew."""
        table = Table((2,))
        self.put(table, (), {1: "car.worked_over"}, 0)
        return table

    def another_whole(self) -> Table:
        """P(W | B), shape (2, 2): under a bearer that is not own, does another car stand whole?"""
        table = Table((2, 2))
        table.put_certain((0,), 0)
        self.put(table, (1,), {1: "bearer.another_whole"}, 0)
        return table

    def assembly(self, kind: AssemblyKind) -> Table:
        """P(A | W, D), shape (2, 3, 2)."""
        table = Table((2, 3, 2))
        name = "body" if kind in (AssemblyKind.SHELL, AssemblyKind.FRAME) else kind.value
        for d, deceit in enumerate(DECEIT):
            level = "none" if deceit == "none" else "deceit"
            self.put(table, (0, d), {1: f"assembly.not_own.{name}.{level}"}, 0)
            self.put(table, (1, d), {1: "assembly.not_own.another_whole"}, 0)
        return table

    def node(self, node: Node) -> Table:
        """P(S | parents): a mark (B or A, D, S), a plate (B, D, C, S), a paper (D, S)."""
        if node.kind is NodeKind.PAPER:
            return self._paper()
        if node.kind is NodeKind.PLATE:
            return self._plate()
        return self._mark(node)

    def _mark(self, node: Node) -> Table:
        table = Table((2, 3, len(n.MARK_STATES)))
        carried = node.carried
        for d, deceit in enumerate(DECEIT):
            made = "mark.recast" if node.is_cast else f"mark.made.own.{deceit}"
            own = {
                n.DONOR: f"part.donor.{carried}",
                n.OTHER: f"part.other.{carried}",
                n.BLANK: f"part.blank.{carried}",
                n.MADE: made,
            }
            if not node.is_cast:
                own[n.OWN_REFITTED] = f"part.refitted.{carried}"
            self.put(table, (0, d), own, n.OWN_SINCE)
            not_own = {
                n.OTHER: f"part.other.{carried}",
                n.BLANK: f"part.blank.{carried}",
                n.MADE: "mark.recast" if node.is_cast else f"mark.made.not_own.{deceit}",
            }
            if not node.is_cast:
                not_own[n.OWN_BROUGHT] = f"mark.graft.{deceit}"
                not_own[n.DONOR_REFITTED] = f"part.refitted.{carried}"
            self.put(table, (1, d), not_own, n.DONOR)
        return table

    def _plate(self) -> Table:
        table = Table((2, 3, self.configurations, len(n.MARK_STATES)))
        for d, deceit in enumerate(DECEIT):
            level = "none" if deceit == "none" else "deceit"
            for c in range(self.configurations):
                dressed = c > 0 and level == "deceit"
                made = "plate.made.own.dressed" if dressed else f"plate.made.own.{level}"
                own = {n.OWN_REFITTED: "plate.refitted", n.OTHER: "plate.other", n.MADE: made}
                self.put(table, (0, d, c), own, n.OWN_SINCE)
                not_own = {
                    n.OWN_BROUGHT: f"plate.moved.not_own.{level}",
                    n.MADE: f"plate.made.not_own.{level}",
                    n.OTHER: "plate.other.not_own",
                }
                self.put(table, (1, d, c), not_own, n.DONOR)
        return table

    def _paper(self) -> Table:
        table = Table((3, len(n.PAPER_STATES)))
        for d, deceit in enumerate(DECEIT):
            entries = {n.PAPER_OTHER: "paper.other", n.PAPER_MADE: f"paper.made.{deceit}"}
            self.put(table, (d,), entries, n.PAPER_OWN)
        return table
