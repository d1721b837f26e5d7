"""The figures the README may quote: how long the work takes, and against what.

Run from the checkout: `make bench`, or `python -m benchmarks --quick`. One file
for each measure; nothing here asserts a time. Figures hold for the machine they
were taken on; only ratios taken in one run, turn by turn, travel further.
"""
