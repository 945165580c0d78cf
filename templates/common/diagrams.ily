% Diagrams from lists; every command draws from its top edge at 0 downwards and states its height.
% grade dots, 1 to 5
#(define (r-grade u n)
  (r-sum (map (lambda (i) (if (< i n) (r-dot u (+ 1 (* i 3.1)) 0.95 0.95 accent) (r-ring u (+ 1 (* i 3.1)) 0.95 0.95 0.22 rule))) (iota 5))))
#(define-markup-command (grade layout props n) (number?) (r-grade (unit layout) n))
#(define-markup-command (chips layout props names) (list?)
  (let ((u (unit layout))) (r-sum (map (lambda (n i) (r-cell u layout props (* i 5.6) -1.2 5.6 4.4 n 9.5)) names (iota (length names))))))

% the note of a metronome mark
#(define (beat-note layout props log dots size)
  (interpret-markup layout props #{ \markup \abs-fontsize #size \raise #0.1 \fontsize #-2.5 \note #(ly:make-duration log dots) #UP #}))
#(define-markup-command (bpm layout props log dots text) (scheme? number? string?)
  (interpret-markup layout props (if log
    #{ \markup \concat { \override #'(font-name . #f) \raise #0.1 \fontsize #-3.6
       \note #(ly:make-duration log dots) #UP \hspace #0.7 #text } #}
    text)))
% tempo row: beat is (log dots words), log #f for no note; then a box to tick for each tempo
#(define (r-tempos u layout props beat tempi)
  (let* ((log (car beat)) (sign (r-face layout props u (if log 5 0) 0 LEFT sans 11 ink (caddr beat)))
         (x (max 11 (+ 2.5 (/ (cdr (ly:stencil-extent sign X)) u)))))
  (r-sum (append
    (list (if log (beat-note layout props log (cadr beat) 11) empty-stencil) sign)
    (map (lambda (t i) (ly:stencil-add
       (r-frame u (+ x (* i 15)) -0.55 (+ x 3.6 (* i 15)) 3.05 0.5 0.24 soft paper)
       (r-face layout props u (+ x 4.8 (* i 15)) 0 LEFT sans 11 ink (number->string t)))) tempi (iota (length tempi)))))))

% Ruler: a row of bars over a row of cells. bars: list of (name beats), beats a list of lengths in steps; first: step of the
% row in the phrase; cells: list of (start length number meets?), start counted in the row; left: list of (start length);
% per: steps in the longest row, so that all rows have one scale.
#(define-markup-command (ruler layout props w per bars cells left) (number? number? list? list? list?)
  (let* ((u (unit layout)) (st (/ w per)) (X (lambda (s) (* s st))) (top -3.4)
         (bar-row
           (let loop ((bars bars) (s 0) (even? #t) (out '()))
             (if (null? bars) (cons (r-line u (X s) (- top 5.4) (X s) (+ top 3.4) 0.4 ink) out)
               (let* ((beats (cadr (car bars))) (n (apply + beats)))
                 (loop (cdr bars) (+ s n) (not even?)
                  (append out
                   (list (r-box u (+ (X s) 0.28) (- top 5.4) (- (X (+ s n)) 0.28) top 0.6 (if even? panel-2 panel))
                    (r-face layout props u (+ (X s) 1.1) (+ top 1) LEFT sans-sb 8.5 soft (car (car bars))))
                   (let beat ((b beats) (k 1) (t s) (more '()))
                     (if (null? b) more
                      (beat (cdr b) (+ k 1) (+ t (car b))
                       (append more (list
                         (r-line u (X t) (- top 5.4) (X t) (if (= k 1) (+ top 3.4) top) (if (= k 1) 0.4 0.18) (if (= k 1) ink soft))
                         (if (> (X (car b)) 3) (r-face layout props u (+ (X t) 1.1) (- top 3.65) LEFT sans 8.5 ink (number->string k)) empty-stencil))))))))))))
         (low (- top 12.4)) (high (- top 7)))
   (sized u
    (r-sum (append bar-row
     (map (lambda (c) (let* ((a (X (car c))) (b (X (+ (car c) (cadr c)))))
       (ly:stencil-add (r-box u (+ a 0.28) low (- b 0.28) high 0.6 (if (cadddr c) accent (pulse-tone)))
        (if (and (> (- b a) 4.2) (caddr c)) (r-face layout props u (/ (+ a b) 2) (+ low 1.65) CENTER sans-sb 8.5 paper (number->string (caddr c))) empty-stencil)
        (if (cadddr c) (r-line u a (- low 1.6) a (- top 5.4) 0.4 accent) empty-stencil)))) cells)
     (map (lambda (l) (r-left u (X (car l)) low st (cadr l) 5.4)) left)))
    w 18)))
#(define-markup-command (ruler-legend layout props w meets left) (number? string? string?)
  (let ((u (unit layout)))
   (sized u (ly:stencil-add
     (if (string=? meets "") empty-stencil (ly:stencil-add (r-box u 0.28 -3.4 3.4 -1.1 0.4 accent) (r-face layout props u 5 -3.2 LEFT sans-sb 8.5 accent meets)))
     (if (string=? left "") empty-stencil (r-face layout props u w -3.2 RIGHT sans-sb 8.5 ink left))) w 4.5)))

% A row of letters; widths in steps; places: numbers under the cells or #f; left: steps left over.
#(define (r-strip u layout props y cw h size names)
  (r-sum (map (lambda (a k) (r-cell u layout props (* k cw) y cw h a size)) names (iota (length names)))))
% skeleton over all strokes; changed places are joined by a tint. cw: width of a cell, st: of a step; left: steps left over
#(define-markup-command (two-strips layout props w cw st upper lower left words) (number? number? number? list? list? number? string?)
  (let* ((u (unit layout)) (h 6.4) (gap 5.2) (n (length upper)))
   (sized u (r-sum (append
     (map (lambda (a b k) (if (string=? a b) empty-stencil
        (r-box u (+ (* k cw) 0.28) (- (+ h h gap)) (- (* (+ k 1) cw) 0.28) (- 1 h) 0 change))) upper lower (iota n))
     (list (r-strip u layout props (- h) cw h 11 upper) (r-strip u layout props (- (+ h h gap)) cw h 11 lower))
     (map (lambda (a b k) (if (or (string=? a b) (< cw 11)) empty-stencil
        (r-face layout props u (* (+ k 0.5) cw) (- -1.0 h (/ gap 2)) CENTER sans-sb 7.5 changed-ink words))) upper lower (iota n))
     (list (r-left u (* n cw) (- h) st left h) (r-left u (* n cw) (- (+ h h gap)) st left h)))) w (+ h h gap 1))))
#(define-markup-command (one-strip layout props w cw st names first left) (number? number? number? list? number? number?)
  (let* ((u (unit layout)) (h 7.6) (n (length names)))
   (sized u (r-sum (append (list (r-strip u layout props (- h) cw h 12 names) (r-left u (* n cw) (- h) st left h))
     (map (lambda (i) (r-face layout props u (* (+ i 0.5) cw) (- 0 h 3.6) CENTER sans 7.5 soft (number->string (+ first i)))) (iota n)))) w (+ h 5))))
% letters with a mirror axis; centre in places from 0 (x.5 between two); arcs have a ceiling
#(define-markup-command (mirror-strip layout props w cw names centre words) (number? number? list? number? string?)
  (let* ((u (unit layout)) (n (length names)) (h 7.6) (axis (* (+ centre 0.5) cw)) (rise 13) (y0 (- 0 rise h))
         (reach (min centre (- n 1 centre))) (first (inexact->exact (ceiling (- centre reach))))
         (arc (lambda (i) (let* ((a (* (+ i 0.5) cw)) (b (* (+ (- (* 2 centre) i) 0.5) cw)) (d (* rise (/ (- b a) (max 1 (* 2 reach cw)))))
                (y (+ y0 h 0.6)))
            (stencil-with-color (make-path-stencil (map (lambda (v) (if (number? v) (* u v) v)) (list 'moveto a y 'curveto a (+ y d) b (+ y d) b y)) (* u 0.2) 1 1 #f) rule)))))
   (sized u (r-sum (append
     (map arc (filter (lambda (i) (< i centre)) (iota (max 0 (inexact->exact (ceiling (- centre first)))) first)))
     (list (r-strip u layout props y0 cw h 12 names))
     (map (lambda (i) (r-face layout props u (* (+ i 0.5) cw) (- y0 3.6) CENTER sans 7.5 soft (number->string (+ i 1)))) (iota n))
     (list (r-dash u axis (+ y0 h 0.6) axis (+ y0 h rise -1) 0.45 accent 0.9) (r-line u axis (- y0 6.2) axis (- y0 4.2) 0.45 accent)
       (r-face layout props u axis (- y0 9.4) CENTER sans-sb 8.5 accent words)))) w (+ rise h 10.5))))
#(define-markup-command (mini-strip layout props w cw st names left) (number? number? number? list? number?)
  (let* ((u (unit layout)))
   (sized u (r-sum (append (map (lambda (a k) (let ((l (cell-look a)))
      (if (caddr l) (r-box u (+ (* k cw) 0.15) -3.4 (- (* (+ k 1) cw) 0.15) -0.8 0.3 (car l))
       (r-frame u (+ (* k cw) 0.15) -3.4 (- (* (+ k 1) cw) 0.15) -0.8 0.3 0.45 (car l) paper)))) names (iota (length names)))
     (list (if (> left 0) (r-box u (+ (* (length names) cw) 0.15) -3.4 (+ (* (length names) cw) (* st left)) -0.8 0.2 ink) empty-stencil)))) w 4)))

% Necklace: n steps on a circle; inner and outer polygons as lists of steps.
#(define (r-necklace u layout props n r dots rings labels)
  (let* ((tau 6.283185307179586)
         (pt (lambda (i rr) (let ((a (- (/ tau 4) (* tau (/ i n))))) (cons (* rr (cos a)) (* rr (sin a))))))
         (poly (lambda (steps col)
           (if (< (length steps) 2) empty-stencil
            (let ((pts (map (lambda (i) (pt i r)) steps)))
             (stencil-with-color (make-path-stencil (append (list 'moveto (* u (caar pts)) (* u (cdar pts)))
               (append-map (lambda (q) (list 'lineto (* u (car q)) (* u (cdr q)))) (cdr pts)) '(closepath)) (* u 0.5) 1 1 #f) col))))))
   (r-sum (append
    (list (r-dot u 0 0 (+ r 0.12) rule) (r-dot u 0 0 (- r 0.12) paper) (poly dots (pulse-tone)) (poly rings (beat-tone)))
    (map (lambda (i) (let ((p (pt i r))) (ly:stencil-add (r-dot u (car p) (cdr p) 1 paper) (r-dot u (car p) (cdr p) 0.6 rule)))) (if (> n 48) '() (iota n)))
    (map (lambda (i) (let ((p (pt i r))) (r-dot u (car p) (cdr p) (if (> n 40) 1.2 2.1) (pulse-tone)))) dots)
    (map (lambda (i) (let ((p (pt i r))) (ly:stencil-add (r-dot u (car p) (cdr p) (if (memv i dots) 1.4 1.6) paper) (r-ring u (car p) (cdr p) 1.4 0.55 (beat-tone))))) rings)
    (map (lambda (l) (let ((q (pt (car l) (+ r 4.6)))) (r-face layout props u (car q) (- (cdr q) 1.05) CENTER sans-sb 9.5 (beat-tone) (cadr l)))) labels)))))
% Box grid: columns are steps; counts over them; rows (name pattern); beats: list of first steps; names of cells under it
#(define (r-boxgrid u layout props w counts beats letters cell rows)
  (let* ((n (length counts)) (s (/ w n)) (h 5.2) (m (length rows)))
   (r-sum (append
    (map (lambda (c i) (if (> (* s (string-length c)) 0) (r-face layout props u (* (+ i 0.5) s) 1.8 CENTER (if (memv i beats) sans-b sans) (min 9 (* s 2.2)) (if (memv i beats) ink soft) c) empty-stencil)) counts (iota n))
    (append-map (lambda (row y)
      (cons (r-face layout props u -2.5 (- (* -1 h (+ y 1)) -1.6) RIGHT sans 9 ink (car row))
       (map (lambda (c i) (let* ((x0 (* i s)) (y0 (* -1 h (+ y 1))) (cx (+ x0 (/ s 2))) (cy (+ y0 (/ h 2))) (rad (min 1.25 (* 0.34 s))))
         (ly:stencil-add
          (r-frame u (+ x0 0.16) (+ y0 0.16) (- (+ x0 s) 0.16) (- (+ y0 h) 0.16) 0.4 0.14 rule (if (memv i beats) panel paper))
          (case c
           ((#\X) (r-box u (- cx (* 1.4 rad)) (- cy (* 1.4 rad)) (+ cx (* 1.4 rad)) (+ cy (* 1.4 rad)) 0.3 ink))
           ((#\x) (r-dot u cx cy rad ink))
           ((#\g) (r-ring u cx cy rad 0.35 changed-ink))
           (else empty-stencil))))) (string->list (cadr row)) (iota n)))) rows (iota m))
    (map (lambda (l k) (r-cell u layout props (* k cell s) (- (* -1 h m) 6.4) (* cell s) 5 l 10)) letters (iota (length letters)))))))
% necklace and grid side by side; names: width of the row names
#(define-markup-command (picture layout props w n dots rings labels counts beats letters cell rows words)
   (number? number? list? list? list? list? list? list? number? list? list?)
  (let* ((u (unit layout)) (r 17) (grid-x 68) (grid-h (+ 18 (* 5.2 (length rows)))) (height (max 49 (+ grid-h 10)))
         (t (lambda (x str) (r-face layout props u x 0 LEFT sans 9 soft str))))
   (sized u (ly:stencil-add
     (placed u (r-necklace u layout props n r dots rings labels) 22 24)
     (placed u (r-boxgrid u layout props (- w grid-x) counts beats letters cell rows) grid-x 8)
     (placed u (ly:stencil-add (if (string=? (list-ref words 0) "") empty-stencil (ly:stencil-add (r-box u 0 -0.2 3.6 2.3 0.3 ink) (t 5 (list-ref words 0))))
       (r-dot u 21.5 1.05 1.2 ink) (t 24 (list-ref words 1))
       (if (string=? (list-ref words 2) "") empty-stencil (ly:stencil-add (r-ring u 39 1.05 1.2 0.35 changed-ink) (t 41.5 (list-ref words 2))))
       (r-dot u 0.8 -5.1 1.3 (pulse-tone)) (r-face layout props u 5 -6 LEFT sans 9 soft (list-ref words 3))
       (r-ring u 39 -5.1 1.3 0.5 (beat-tone)) (r-face layout props u 41.5 -6 LEFT sans 9 soft (list-ref words 4))) grid-x (+ grid-h 1)))
    w height)))

% Cover: a row a bar, a square a step: dark where a cell begins, light where the figure strikes, a dot for silence.
#(define-markup-command (cover-grid layout props w rows) (number? list?)
  (let* ((u (unit layout)) (n (apply max (map string-length rows))) (s (/ w n)) (r (length rows)) (hgt (min s 9.4)))
   (sized u (r-sum (append-map (lambda (row j) (map (lambda (c i)
      (let* ((x (* i s)) (y (- (* j hgt))))
       (case c ((#\B) (r-box u (+ x 0.5) (- y (- hgt 0.5)) (+ x (- s 0.5)) (- y 0.5) 0.8 accent))
               ((#\x) (r-box u (+ x 0.5) (- y (- hgt 0.5)) (+ x (- s 0.5)) (- y 0.5) 0.8 tint))
               ((#\b) (r-frame u (+ x 0.5) (- y (- hgt 0.5)) (+ x (- s 0.5)) (- y 0.5) 0.8 0.6 accent paper))
               (else (r-dot u (+ x (/ s 2)) (- y (/ hgt 2)) 0.55 tint))))) (string->list row) (iota (string-length row)))) rows (iota r)))
    w (* r hgt))))
% bars to scale for daily listening times: rows of (level minutes words)
#(define-markup-command (dose-chart layout props rows) (list?)
  (let* ((u (unit layout)))
   (sized u (r-sum (cons (r-face layout props u 0 -2.4 LEFT sans-sb 8.5 soft "dB(A)")
    (map (lambda (r i) (let ((y (- (* i -5.6) 7.4))) (ly:stencil-add
      (r-face layout props u 8 (- y 1.1) RIGHT sans-sb 9.5 ink (number->string (car r)))
      (r-box u 10.5 (- y 1.6) (+ 10.5 (* 34 (/ (cadr r) 480.0))) (+ y 1.6) 0.3 (if (> i 2) accent tint))
      (r-face layout props u (+ 12.3 (* 34 (/ (cadr r) 480.0))) (- y 1.1) LEFT sans 9.5 ink (caddr r))))) rows (iota (length rows))))) 60 42)))
% signs of the key that are no notes
#(define-markup-command (left-sign layout props) () (r-left (unit layout) 0 0 2 2 4.6))
#(define-markup-command (cut-sign layout props) ()
  (let ((u (unit layout))) (ly:stencil-add (r-box u 0 -1.3 8.4 3.3 0.6 ink) (r-cell u layout props 0.15 -1.15 8.1 4.3 "A" 9.5))))
#(define-markup-command (mirror-key layout props) ()
  (let ((u (unit layout))) (ly:stencil-add (r-cell u layout props 0 -1.2 7 4.4 "A" 9.5) (r-cell u layout props 7 -1.2 7 4.4 "B" 9.5)
    (r-cell u layout props 14 -1.2 7 4.4 "A" 9.5) (ly:stencil-translate (mirror-sign) (cons (* u 10.5) (* u 3.7))))))
#(define-markup-command (endings-sign layout props) ()
  (let* ((u (unit layout)) (y 5) (ending (lambda (x n open?) (r-sum (list
      (r-line u x y (+ x 8.5) y 0.3 ink) (r-line u x (- y 2.6) x y 0.3 ink) (if open? empty-stencil (r-line u (+ x 8.5) (- y 2.6) (+ x 8.5) y 0.3 ink))
      (r-face layout props u (+ x 0.8) (- y 2.6) LEFT sans-b 7.5 ink n))))))
    (ly:stencil-add (ending 0 "1." #f) (ending 9.5 "2." #t)
      (interpret-markup layout props (make-at-markup 0 -1.6 (make-hline-markup 19 0.2 rule))))))
