% Cell ribbons over the staff: one spanner a cell, ended by the next. A cell that ends with a bar ends at the bar line's
% own column, so that nothing strays after a line break; the last cell needs no end of its own.
#(define (ribbon-engraver context)
  (let ((span #f) (start #f))
   (make-engraver
    (listeners ((text-span-event engraver event) (set! start event)))
    ((process-music engraver)
      (if (and span start)
       (let ((bar-start? (= 0 (ly:moment-main (ly:context-property context 'measurePosition (ly:make-moment 1))))))
        (ly:spanner-set-bound! span RIGHT
          (ly:context-property context (if bar-start? 'currentCommandColumn 'currentMusicalColumn)))
        (ly:engraver-announce-end-grob engraver span start)
        (set! span #f)))
      (if start
       (begin (set! span (ly:engraver-make-grob engraver 'TextSpanner start))
              (ly:spanner-set-bound! span LEFT (ly:context-property context 'currentMusicalColumn))))
      (set! start #f))
    ((finalize engraver)
      (if span (ly:spanner-set-bound! span RIGHT (ly:context-property context 'currentCommandColumn)))))))
#(define ribbon-height 2.3)
#(define (ribbon-moment bound)
  (ly:grob-property (if (ly:item? bound) (ly:item-get-column bound) bound) 'when))
% one whole note in staff spaces: from the smallest distance between neighbouring columns (bar lines only ever widen it)
#(define (space-rate system)
  (let ((notes (filter (lambda (c) (not (ly:grob-property c 'non-musical #f)))
                (ly:grob-array->list (ly:grob-object system 'columns))))
        (whole (lambda (c) (ly:moment-main (ribbon-moment c))))
        (at (lambda (c) (ly:grob-relative-coordinate c system X))))
   (let loop ((c notes) (best 100000))
    (if (or (null? c) (null? (cdr c))) best
     (let ((dt (- (whole (cadr c)) (whole (car c)))))
      (loop (cdr c) (if (> dt 0) (min best (/ (- (at (cadr c)) (at (car c))) dt)) best)))))))
% where the last step before a bar line ends: graces widen a bar unevenly, so it is counted from its last note
#(define (last-step-end system end)
  (let* ((when-of (lambda (c) (ly:moment-main (ribbon-moment c))))
         (before (filter (lambda (c) (and (not (ly:grob-property c 'non-musical #f)) (< (when-of c) end)))
                  (ly:grob-array->list (ly:grob-object system 'columns)))))
    (if (null? before) 100000
      (let ((note (last before)))
        (+ (ly:grob-relative-coordinate note system X) (* (space-rate system) (- end (when-of note))))))))
#(define (ribbon-stencil grob)
  (let* ((orig (ly:grob-original grob)) (sibs (if (ly:grob? orig) (ly:spanner-broken-into orig) '()))
         (first? (or (null? sibs) (eq? grob (car sibs)))) (last? (or (null? sibs) (eq? grob (last sibs))))
         (sys (ly:grob-system grob)) (l (ly:spanner-bound grob LEFT)) (r (ly:spanner-bound grob RIGHT))
         (lc (ly:item-get-column l)) (rc (ly:item-get-column r))
         (whole (lambda (c) (ly:moment-main (ribbon-moment c))))
         (edge (lambda (c dir) (let ((e (ly:generic-bound-extent c sys))) (if (= dir LEFT) (car e) (cdr e)))))
         (x0 (if first? (- (ly:grob-relative-coordinate lc sys X) 0.35) (+ 0.2 (edge l RIGHT))))
         ; before a bar line a block ends where its last step ends, not where the bar line stands, and over a repeat sign
         (bar? (ly:grob-property rc 'non-musical #f))
         (x1 (- (cond ((not last?) (+ 0.2 (edge r LEFT)))
                      (bar? (min (- (cdr (ly:grob-extent rc sys X)) 0.2) (- (last-step-end sys (whole rc)) 0.35)))
                      (else (- (ly:grob-relative-coordinate rc sys X) 0.35))) 0.3))
         (empty? (and (not first?) last? (equal? (ribbon-moment lc) (ribbon-moment rc))))
         (me (ly:grob-relative-coordinate grob sys X)) (a (- x0 me)) (b (- x1 me)))
    (if empty? empty-stencil
      (ly:stencil-add (ribbon-name grob a b) (if first? (mirror-over grob a b) empty-stencil)))))
#(define (ribbon-name grob a b)
  (let ((name (ly:grob-property grob 'text))) (if (string? name) (ribbon-block grob name a b) empty-stencil)))
% Over the middle of letters that read the same from both ends: two points that meet on an axis.
#(define (mirror-sign)
  (let ((point (lambda (dir) (ly:make-stencil `(polygon (,(* dir 1.15) 1.25 ,(* dir 1.15) 0.15 ,(* dir 0.3) 0.7) 0.05 #t)
                 (if (> dir 0) '(0.3 . 1.15) '(-1.15 . -0.3)) '(0.15 . 1.25)))))
    (stencil-with-color (ly:stencil-add (make-line-stencil 0.16 0 0 0 1.4) (point RIGHT) (point LEFT)) accent)))
#(define (mirror-over grob a b)
  (let ((part (ly:assoc-get 'mirror (ly:grob-property grob 'details) #f)))
    (cond ((not part) empty-stencil)
          (else (ly:stencil-translate (mirror-sign)
            (cons (if (zero? part) (cell-edge grob a) (+ a (* part (- b a)))) (+ ribbon-height 0.35)))))))
% Where a cell begins: halfway between its block and the last one, or where the bar line stands.
#(define (cell-edge grob a)
  (let* ((sys (ly:grob-system grob)) (start (ribbon-moment (ly:spanner-bound grob LEFT)))
         (bar (find (lambda (each) (and (eq? 'BarLine (grob::name each)) (equal? start (grob::when each)) (interval-sane? (ly:grob-extent each sys X))))
                (ly:grob-array->list (ly:grob-object sys 'all-elements)))))
    (if bar (- (interval-center (ly:grob-extent bar sys X)) (ly:grob-relative-coordinate grob sys X)) (- a 0.15))))
% "" is a remainder that begins no cell; a leading "/" a cell that is cut off
#(define (ribbon-block grob name a b)
  (let* ((h ribbon-height) (cut? (string-prefix? "/" name)) (name (if cut? (substring name 1) name))
         (look (cell-look name)) (col (if (string=? name "") ink (car look))) (solid? (caddr look))
         (box (lambda (i) (ly:round-filled-box (cons (+ a i) (- b i)) (cons i (- h i)) (max 0.1 (- 0.35 i)))))
         (text (grob-interpret-markup grob (markup #:abs-fontsize (if (> (- b a) 2.2) 10.5 8) #:override (cons 'font-name sans-b)
                                            #:with-color (cadr look) name)))
         ; nothing is placed for no letter: an empty stencil has no middle
         (letter (if (or (string=? name "") (> (interval-length (ly:stencil-extent text X)) (- b a 0.3))) empty-stencil
                   (ly:stencil-translate (ly:stencil-aligned-to text X CENTER) (cons (/ (+ a b) 2) 0.5)))))
    (cond ((string=? name "") (stencil-with-color (box 0) ink))
          (cut? (ly:stencil-add (stencil-with-color (box 0) ink) (stencil-with-color (ly:round-filled-box (cons (+ a 0.24) (- b 0.24)) (cons 0.24 (- h 0.24)) 0.1) col)
                 (if solid? empty-stencil (stencil-with-color (box 0.55) paper)) letter))
          (else (ly:stencil-add (stencil-with-color (box 0) col)
                 (if solid? empty-stencil (stencil-with-color (box 0.24) paper)) letter)))))
% '(("A" 3/16) ("B" 3/16 1/2) ...) laid one after the other; in the middle of this B the letters have their mirror
ribbons = #(define-music-function (cells) (list?)
  (make-music 'SequentialMusic 'elements
   (map (lambda (cell)
     (make-music 'SkipEvent 'duration (ly:make-duration 0 0 (cadr cell))
       'articulations
       (if (or (car cell) (pair? (cddr cell)))
        (list (make-music 'TextSpanEvent 'span-direction START 'tweaks (list
          (cons 'text (or (car cell) '())) (cons 'details (if (pair? (cddr cell)) (list (cons 'mirror (caddr cell))) '())))))
        '())))
    cells)))

% Over a staff with nothing above the feet.
nearStaff = \with {
  \override VerticalAxisGroup.nonstaff-relatedstaff-spacing = #'((basic-distance . 4.4) (minimum-distance . 4.4) (padding . 0.6) (stretchability . 0)) }
