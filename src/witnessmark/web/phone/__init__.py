"""The phone at the car: how it joins, what it is given, and what it jots down taken in."""
