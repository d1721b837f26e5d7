"""The benchmarks are no part of the package: they are imported from the checkout."""

import sys
from pathlib import Path

CHECKOUT = str(Path(__file__).resolve().parents[2])

if CHECKOUT not in sys.path:
    sys.path.insert(0, CHECKOUT)
