"""Witnessmark reads the marks a factory left on a collector car.

It says how well they support what is claimed for the car, what cannot be
established with what is on hand, and what would settle it.
"""

import os

# The tables of the weighing are small: a sum that is spread over several threads waits longer for
# them than it takes, and takes twice the time of a processor from whoever works beside. Said
# before anything loads numpy.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

__version__ = "0.1.0"
