"""How many examples a property is tried on: few in `make test`, all of them in `make fuzz`."""

from typing import Any

from hypothesis import settings

FEW = 40
"""Examples of a property in `make test`, unless it says that it is a slow one."""


def tried_on(examples: int, few: int = FEW, **how: Any) -> settings:
    """So many examples in `make fuzz`, at most `few` in `make test`."""
    is_fuzz = settings.get_current_profile_name() == "fuzz"
    return settings(max_examples=examples if is_fuzz else min(examples, few), **how)
