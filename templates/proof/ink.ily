% Reads the ink back: after the pages are laid out, every column of note heads (what one voice strikes at one moment)
% is written to source.ink. Stands before a page's source; changes nothing on the page.
%   column LINE MOMENT GRACE STEM    LINE of the source the heads come from, MOMENT of the written music
%   head POSITION GLYPH SIZE LOOK    staff position, 0 the middle line; SIZE as font size; LOOK ( or -
%   sign WORD ...                    what is drawn of one sign of the column: glyph names, texts
%   slashes COUNT WORD ...           a tremolo on the stem, and what is drawn in its place
%   repeated LINE MOMENT             a bar that is a sign for the bar before it
#(define ink-columns '())
#(define ink-parentheses '())
#(define ink-repeats '())
#(define (ink-column-engraver context)
  (let ((heads '()) (signs '()))
    (define (see-sign engraver grob source) (set! signs (cons grob signs)))
    (make-engraver
      (acknowledgers
        ((note-head-interface engraver grob source) (set! heads (cons grob heads)))
        ((script-interface engraver grob source) (see-sign engraver grob source))
        ((text-script-interface engraver grob source) (see-sign engraver grob source))
        ((stem-tremolo-interface engraver grob source) (see-sign engraver grob source)))
      ((stop-translation-timestep engraver)
        (if (or (pair? heads) (pair? signs))
            (set! ink-columns (cons (cons (reverse heads) (reverse signs)) ink-columns)))
        (set! heads '())
        (set! signs '())))))
#(define (ink-parentheses-engraver context)
  (make-engraver
    (acknowledgers
      ((parentheses-interface engraver grob source) (set! ink-parentheses (cons grob ink-parentheses))))))

#(define (ink-repeats-engraver context)
  (make-engraver
    (acknowledgers
      ((percent-repeat-interface engraver grob source) (set! ink-repeats (cons grob ink-repeats))))))

#(define (ink-drawn grob)
  (let ((stencil (ly:grob-property grob 'stencil #f)))
    (if (and (ly:stencil? stencil) (not (ly:stencil-empty? stencil)) (not (ly:grob-property grob 'transparent #f))) (ink-words (ly:stencil-expr stencil)) '())))
% Glyph names and texts anywhere in a stencil, in order.
#(define (ink-words expression)
  (cond ((not (pair? expression)) '())
        ((eq? (car expression) 'named-glyph) (list (caddr expression)))
        ((eq? (car expression) 'utf-8-string) (list (list-ref expression 2)))
        (else (append (ink-words (car expression)) (ink-words (cdr expression))))))
#(define (ink-line grob)
  (let* ((event (event-cause grob)) (place (and event (ly:event-property event 'origin #f))))
    (if (ly:input-location? place) (cadr (ly:input-file-line-char-column place)) 0)))
#(define (ink-position head)
  (let ((staff (ly:grob-object head 'staff-symbol #f)))
    (if (ly:grob? staff)
        (let ((common (ly:grob-common-refpoint head staff Y)))
          (inexact->exact (round (* 2 (/ (- (ly:grob-relative-coordinate head common Y)
                                             (ly:grob-relative-coordinate staff common Y))
                                          (ly:staff-symbol-staff-space head))))))
        "none")))
#(define (ink-parenthesised? head)
  (any (lambda (signs)
         (and (pair? (ink-drawn signs))
              (memq head (ly:grob-array->list (ly:grob-object signs 'elements)))))
       ink-parentheses))
#(define (ink-stem head)
  (let ((stem (ly:grob-object head 'stem #f)))
    (if (ly:grob? stem) (ly:grob-property stem 'direction 0) 0)))

#(define (ink-write-head head)
  (format #t "head ~a ~a ~a ~a\n" (ink-position head) (string-join (ink-drawn head) "+")
          (ly:grob-property head 'font-size 0) (if (ink-parenthesised? head) "(" "-")))
#(define (ink-write-sign sign)
  (if (grob::has-interface sign 'stem-tremolo-interface)
      (format #t "slashes ~a ~a\n" (ly:grob-property sign 'flag-count) (string-join (ink-drawn sign) " "))
      (format #t "sign ~a\n" (string-join (ink-drawn sign) " "))))
#(define (ink-write-column column)
  (let* ((first (if (pair? (car column)) (caar column) (cadr column)))
         (moment (grob::when first)))
    (format #t "column ~a ~a ~a ~a\n" (ink-line first) (ly:moment-main moment) (ly:moment-grace moment)
            (if (pair? (car column)) (ink-stem first) 0))
    (for-each ink-write-head (car column))
    (for-each ink-write-sign (cdr column))))
% At the end of a line it is the broken piece that is drawn and knows where it comes from.
#(define (ink-write-repeat sign)
  (let ((drawn (find (lambda (piece) (pair? (ink-drawn piece))) (cons sign (ly:spanner-broken-into sign)))))
    (if drawn
        (format #t "repeated ~a ~a\n" (ink-line drawn) (ly:moment-main (grob::when (ly:spanner-bound drawn LEFT)))))))
#(define (ink-write layout pages)
  (with-output-to-file "source.ink"
    (lambda ()
      (for-each ink-write-repeat (reverse ink-repeats))
      (for-each ink-write-column (reverse ink-columns)))))

\layout {
  \context { \DrumVoice \consists #ink-column-engraver \consists #ink-repeats-engraver }
  \context { \Score \consists #ink-parentheses-engraver }
}
\paper { page-post-process = #ink-write }
