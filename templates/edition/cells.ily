% How cells look: a letter has a colour, a line and a filling of its own, so that no colour speaks alone.
#(define (cell-form letter)
  (let ((row (assoc letter cell-looks))) (if row (modulo (cadr row) 6) #f)))
#(define (cell-tint letter) (list-ref cell-tints (cell-form letter)))
#(define (e-outline u x0 y0 x1 y1 th col)
  (r-sum (list (r-line u x0 y0 x1 y0 th col) (r-line u x0 y1 x1 y1 th col) (r-line u x0 y0 x0 y1 th col) (r-line u x1 y0 x1 y1 th col))))
#(define (e-hatch u x0 y0 x1 y1 col)
  (let* ((h (- y1 y0)) (n (inexact->exact (floor (/ (+ (- x1 x0) h) 1.5)))))
    (r-sum (map (lambda (i)
        (let* ((s (+ (- x0 h) (* 1.5 (+ i 1)))) (a (max s x0)) (b (min (+ s h) x1)))
          (if (> b a) (r-line u a (+ y0 (- a s)) b (+ y0 (- b s)) 0.12 col) empty-stencil))) (iota n)))))
#(define (e-filling u x0 y0 x1 y1 form tint col)
  (case form
    ((0) empty-stencil)
    ((1) (r-sum (list (r-box u x0 y0 x1 y1 0 tint) (r-line u x0 (+ y0 0.8) x1 (+ y0 0.8) 0.25 col) (r-line u x0 (- y1 0.8) x1 (- y1 0.8) 0.25 col))))
    ((2) (e-hatch u x0 y0 x1 y1 col))
    ((3) (r-box u x0 y0 x1 y1 0 tint))
    ((4) (r-sum (list (r-box u x0 y0 x1 y1 0 tint) (e-hatch u x0 y0 x1 y1 col))))
    (else (r-sum (list (r-line u x0 (+ y0 0.8) x1 (+ y0 0.8) 0.25 col) (r-line u x0 (- y1 0.8) x1 (- y1 0.8) 0.25 col))))))
% a box in a strip; "?" is a place to think about, "" an empty one
#(define (r-cell u layout props x0 y0 w h name size)
  (let* ((g (min 0.2 (* 0.06 w))) (a (+ x0 g)) (b (- (+ x0 w) g)) (y1 (+ y0 h)) (form (cell-form name))
         (col (cond ((string=? name "?") accent) (form (car (cell-look name))) (else rule)))
         (size (min size (* 1.5 w))) (mid (/ (+ a b) 2)) (half (* 0.2 size))
         (letter (r-face layout props u mid (+ y0 (- (/ h 2) (* size mm-per-pt 0.35))) CENTER schola-b size col name)))
    (r-sum (list
      (if form (e-filling u a y0 b y1 form (cell-tint name) col) empty-stencil)
      (if (memv form '(2 4)) (r-box u (- mid half) (+ y0 0.7) (+ mid half) (- y1 0.7) 0 paper) empty-stencil)
      (e-outline u a y0 b y1 0.3 col) letter))))
% steps left over: a box of dots, open to the left
#(define (e-dots u x0 y0 x1 y1)
  (let ((n (inexact->exact (max 1 (round (/ (+ (abs (- x1 x0)) (abs (- y1 y0))) 1.05))))))
    (r-sum (map (lambda (i) (r-dot u (+ x0 (* (/ i n) (- x1 x0))) (+ y0 (* (/ i n) (- y1 y0))) 0.24 left-over)) (iota (+ n 1))))))
#(define (r-left u x0 y0 st n h)
  (let ((a (+ x0 0.6)) (b (- (+ x0 (* n st)) 0.2)) (y1 (+ y0 h)))
    (if (= n 0) empty-stencil (r-sum (list (e-dots u a y0 b y0) (e-dots u a y1 b y1) (e-dots u b y0 b y1))))))
% A bracket over the staff; its line tells the letter, it stays open where a line breaks.
#(define ribbon-height 2)
#(define (e-dashes on off th a b)
  (let* ((n (max 1 (inexact->exact (round (/ (- b a) (+ on off)))))) (step (if (> n 1) (/ (- b a on) (- n 1)) 0)))
    (r-sum (map (lambda (i) (make-line-stencil th (+ a (* i step)) 0 (+ a (* i step) on) 0)) (iota n)))))
#(define (e-line form a b)
  (if (<= b a) empty-stencil
    (case form
      ((0) (make-line-stencil 0.2 a 0 b 0))
      ((1) (ly:stencil-add (make-line-stencil 0.13 a 0 b 0) (make-line-stencil 0.13 a -0.34 b -0.34)))
      ((2) (e-dashes 0.62 0.5 0.2 a b))
      ((3) (e-dashes 1.1 0.7 0.2 a b))
      ((4) (make-line-stencil 0.36 a 0 b 0))
      ((5) (ly:stencil-add (make-line-stencil 0.26 a 0 b 0) (make-line-stencil 0.1 a -0.4 b -0.4)))
      (else (e-dashes 0.05 0.45 0.2 a b)))))
#(define (ribbon-block grob name a b)
  (let* ((cut? (string-prefix? "/" name)) (letter (if cut? (substring name 1) name)) (form (cell-form letter))
         (col (if form (car (cell-look letter)) soft)) (mid (/ (+ a b) 2))
         (text (if (string=? letter "") empty-stencil
                 (ly:stencil-aligned-to (ly:stencil-aligned-to (grob-interpret-markup grob
                    (markup #:abs-fontsize (if (> (- b a) 2.4) 13 10) #:override (cons 'font-name schola-b) letter)) X CENTER) Y CENTER)))
         (half (if (string=? letter "") 0 (+ 0.45 (/ (interval-length (ly:stencil-extent text X)) 2))))
         (hook (lambda (x) (make-line-stencil 0.16 x 0 x -0.85))))
    (ly:stencil-translate-axis
      (stencil-with-color (r-sum (list (e-line form a (- mid half)) (e-line form (+ mid half) b) (hook a)
          (if cut? empty-stencil (hook b)) (ly:stencil-translate text (cons mid -0.1)))) col) 1 Y)))
% of the key: a bracket that has no end
#(define-markup-command (cut-sign layout props) ()
  (let* ((u (unit layout)) (col (car (cell-look "A"))))
    (r-sum (list (r-line u 0 2 3.2 2 0.35 col) (r-line u 0 0.5 0 2 0.3 col) (r-line u 6.8 2 10 2 0.35 col)
      (r-face layout props u 5 0.35 CENTER schola-b 13 col "A") (r-line u 10.6 -1.4 10.6 3.6 0.5 ink)))))
\layout {
  \context { \Cells
    \override VerticalAxisGroup.nonstaff-relatedstaff-spacing = #'((basic-distance . 6.6) (minimum-distance . 6.6) (padding . 0.8) (stretchability . 0)) }
  \context { \Lyrics
    \override LyricText.font-name = #schola \override LyricText.font-size = #-2
    % its figures are taller than those of the other faces
    \override VerticalAxisGroup.nonstaff-relatedstaff-spacing.padding = #1.2
    \override VerticalAxisGroup.nonstaff-nonstaff-spacing = #'((basic-distance . 3.1) (minimum-distance . 3.1) (padding . 0.2)) }
  \context { \DrumStaff \override StaffSymbol.thickness = #1 \override BarLine.hair-thickness = #1.2 }
}
