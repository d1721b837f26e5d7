"""What answers as a network does: one that notes along which axis it is asked, and one whose
draws were summed otherwise."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.network.factors import Cells, ItemAxes, way_axis
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.pieces.items import CodeItem

Array = NDArray[np.float64]


class _Like:
    """What a network is asked, answered along one axis or another."""

    def __init__(self, network: Network) -> None:
        self.network = network

    @property
    def draws(self) -> int:
        """How many draws of the rates there are."""
        return self.network.draws

    @property
    def prior(self) -> Array:
        """That of the car's own variables."""
        return self.network.prior

    @property
    def cells(self) -> dict[str, Cells]:
        """The cells of every piece."""
        return self.network.cells

    @property
    def items(self) -> dict[str, CodeItem]:
        """The claimed items that were read."""
        return self.network.items

    @property
    def axes(self) -> ItemAxes:
        """Which items stand by themselves."""
        return self.network.axes

    def of_structure(self) -> Array:
        """P(what was noted, and each state of the structure), shape (draws, states)."""
        return self.along("S")

    def of_ways(self, piece: str) -> tuple[Array, Array]:
        """P(what was noted, each way of a piece) and P(the way), each (draws, ways)."""
        return self.along(way_axis(piece)), self.network.before(piece)

    def of_item(self, item: str) -> Array:
        """P(what was noted, each state of an item), shape (draws, states)."""
        return self.along(f"item {item}")

    def along(self, axis: str) -> Array:
        """P(what was noted, and each state along an axis), shape (draws, states)."""
        raise NotImplementedError


class Noting(_Like):
    """A network that notes along which axis it was asked last."""

    axis = ""

    def along(self, axis: str) -> Array:
        """As the network says."""
        self.axis = axis
        if axis == "S":
            return self.network.of_structure()
        piece = next((each for each in self.cells if way_axis(each) == axis), None)
        if piece is not None:
            return self.network.of_ways(piece)[0]
        return self.network.of_item(axis.removeprefix("item "))


class DrawnNetwork(_Like):
    """A network whose draws are summed by a plan."""

    def __init__(self, network: Network, joints: Mapping[str, Array]) -> None:
        super().__init__(network)
        self._joints = joints

    def along(self, axis: str) -> Array:
        """As it was summed."""
        return self._joints[axis]
