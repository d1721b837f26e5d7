"""The kinds of array in this room."""

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
type Which = NDArray[np.bool_]
type Places = NDArray[np.intp]
"""Places in another array, or numbers of entries."""
type Days = NDArray[np.int64]
"""Days, or first days of weeks, as ordinals."""
