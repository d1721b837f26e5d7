"""The proving ground: a world with known truth, and how often the weighing misleads in it.

`python -m benchmarks.proving` runs it. Nothing here is imported by the package, and the
world is not the weighing model run backwards: see docs/proving.md for what differs.
"""
