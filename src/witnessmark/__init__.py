"""Witnessmark reads the marks a factory left on a collector car.

It says how well they support what is claimed for the car, what cannot be
established with what is on hand, and what would settle it.
"""

__version__ = "0.1.0"
