"""Engraver: drum-set grooves in YAML become the pages of a method book."""

__version__ = "0.1.0"
