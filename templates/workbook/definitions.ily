% What no setting changes. Read with a source, or before it by an engine that stays warm (ahead.ily): nothing here may be
% computed from a setting while it is read.
#(define definitions-are-read #t)
\include "fonts.ily"
\include "flow.ily"
\include "colour.ily"
\include "text.ily"
\include "shapes.ily"
\include "diagrams.ily"
\include "blocks.ily"
\include "pages.ily"
\include "music.ily"
\include "ribbons.ily"
