"""A book's definition in, every text that LilyPond engraves out: chapters, the pages around them, the page furniture.

Texts are remembered where nothing that makes them has changed. Nothing is run here.
"""
