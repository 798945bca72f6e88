"""Measurements to look at, not to pass: `python -m tests.bench` prints all, `python -m tests.bench core` one part."""
