"""The sections of a report: one module each, from an Opinion to sentences and tables."""
