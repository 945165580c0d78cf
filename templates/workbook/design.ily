% The workbook design. A source defines page-width, page-height, staff-points, ghost-look, colours? and cell-looks first.
#(if (not (defined? 'definitions-are-read)) (ly:parser-include-string "\\include \"definitions.ily\""))
\include "paper.ily"
\include "colours.ily"
\include "type.ily"
\include "contexts.ily"
