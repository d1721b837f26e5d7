"""Draws the demonstration's photographs: metal with marks on it, seen in raking light."""
