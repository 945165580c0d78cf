"""What is sold: a book's folder in; its editions, texts, MIDI files, checksums and archive out, and buyers' copies.

released = release(where, shop_csv)                         # folder, CSV -> a folder, an archive, copies
"""

from engraver.release.releasing import Released, release

__all__ = ["Released", "release"]
