"""Makers whose parts bear the car's number: their cars, their stories, the exact answer."""
