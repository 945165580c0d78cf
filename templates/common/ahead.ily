% Read once by an engine that stays warm, before the first source: what no setting changes, and the fonts of the music.
% The settings here only stand in for those that every source makes. No text is set: that would start threads.
#(define page-width 210) #(define page-height 297) #(define staff-points 20)
#(define ghost-look 'parentheses) #(define colours? #t)
#(define cell-looks '())
#(define before-ahead (list $defaultpaper $defaultlayout paper-alist))
\include "design.ily"
#(begin
  (set! $defaultpaper (car before-ahead))
  (set! $defaultlayout (cadr before-ahead))
  (set! paper-alist (caddr before-ahead)))
% every size, since LilyPond looks at all to choose one
#(for-each (lambda (size) (ly:system-font-load (format #f "emmentaler-~a" size))) '(11 13 14 16 18 20 23 26))
