"""The gutter: how far the pages of a bound book move away from the spine, by their number.

In: how many pages. Out: millimetres. The more pages, the more of each disappears in the spine. What the inside margin
must have more than the outside one is given back by moving the page half of it, so that the open book looks even.
Source: the least margins that printers of single copies ask for, in inches, as third parties list them (inside .375 up
to 150 pages, .5 to 300, .625 to 500, .75 to 700, .875 beyond; outside .25). A printer's own table comes first.
"""

from __future__ import annotations

_MM = 25.4
_OUTSIDE = 0.25
_INSIDE = ((150, 0.375), (300, 0.5), (500, 0.625), (700, 0.75))
_THICKEST = 0.875


def gutter(pages: int) -> float:
    """Millimetres, to a tenth."""
    inside = next((least for most, least in _INSIDE if pages <= most), _THICKEST)
    return round((inside - _OUTSIDE) / 2 * _MM, 1)
