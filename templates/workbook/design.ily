% The workbook design. A source defines page-width, page-height, staff-points, ghost-look, colours? and cell-looks first.
\include "paper.ily"
\include "colours.ily"
\include "type.ily"
\include "shapes.ily"
\include "diagrams.ily"
\include "blocks.ily"
\include "music.ily"
\include "ribbons.ily"
