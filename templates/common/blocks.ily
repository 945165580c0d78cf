% Blocks of the flow: things under and beside one another. Each is measured: it hangs down from its base at 0 by its height,
% reaches above it by the space it wants there, and what hangs in the margin counts nothing.
#(define margin-dx (- margin-x main-x))
#(define (u-height layout s)
  (let ((y (ly:stencil-extent s Y))) (if (interval-empty? y) 0 (/ (- (car y)) (unit layout)))))
#(define-markup-command (gap layout props h) (number?) (sized (unit layout) empty-stencil main-w h))
% things under one another: numbers are space in mm
#(define (pile layout props width items)
  (let ((u (unit layout)))
   (let loop ((items items) (y 0) (out empty-stencil))
    (cond ((null? items) (sized u out width y))
          ((number? (car items)) (loop (cdr items) (+ y (car items)) out))
          (else (let ((s (if (ly:stencil? (car items)) (car items) (interpret-markup layout props (car items)))))
            (loop (cdr items) (+ y (u-height layout s)) (ly:stencil-add out (placed u s 0 y)))))))))
% space over a block; it falls away at the top of a page
#(define (spaced-over u space s) (ly:make-stencil (ly:stencil-expr s) (ly:stencil-extent s X) (cons (car (ly:stencil-extent s Y)) (* u space))))
% things side by side, each as wide as the column
#(define (side-by-side layout width column items)
  (let* ((u (unit layout)) (n (length items)))
   (sized u (r-sum (map (lambda (s i) (placed u s (* i column) 0)) items (iota n)))
     width (apply max 0 (map (lambda (s) (u-height layout s)) items)))))
% a block with something in the margin beside it
#(define-markup-command (beside layout props margin main) (markup? markup?)
  (let* ((u (unit layout)) (s (interpret-markup layout props main)) (m (interpret-markup layout props margin)))
    (ly:make-stencil (ly:stencil-expr (ly:stencil-add (placed u m margin-dx 0) s)) (ly:stencil-extent s X) (ly:stencil-extent s Y))))

% paragraphs and lists of an author: blocks of (mark words)
#(define (prose-items layout props style width blocks)
  (append-map (lambda (b)
     (list (if (string=? (car b) "") (markup #:para style width (cadr b))
       (let ((u (unit layout)) (s (interpret-markup layout props (markup #:para style (- width 6) (cadr b)))))
        (sized u (ly:stencil-add (placed u (interpret-markup layout props (make-para-markup style 6 (car b))) 0 0) (placed u s 6 0)) width (u-height layout s))))
      (if (string=? (car b) "") 2 0.8))) blocks))
#(define-markup-command (prose layout props style width blocks) (symbol? number? list?)
  (pile layout props width (prose-items layout props style width blocks)))

#(define (indented layout props style by words)
  (let* ((u (unit layout)) (s (interpret-markup layout props (make-para-markup style (- main-w by) words))))
    (sized u (placed u s by 0) main-w (u-height layout s))))

#(define-markup-list-command (card-rows layout props per-row items) (number? markup-list?)
  (let ((w (/ (- main-w (* 6 (- per-row 1))) per-row)))
   (let loop ((cards (interpret-markup-list layout props items)) (rows '()))
    (if (null? cards) (reverse rows)
     (let* ((n (min per-row (length cards))) (row (side-by-side layout main-w (+ w 6) (list-head cards n))))
      (loop (list-tail cards n) (cons (sized (unit layout) row main-w (+ 4 (u-height layout row))) rows)))))))

#(define-markup-command (piled layout props items) (list?) (pile layout props main-w items))
#(define (pile-markup items) (make-piled-markup items))
% one line, made smaller if it is too long
#(define (interpret-fitted layout props name width text)
  (make-stencil-markup (fitted (interpret-markup layout props (make-tx-markup name text)) (* (unit layout) width))))
% a whole page drawn from its top left corner: furniture and the title page
#(define-markup-command (canvas layout props items) (markup-list?)
  (let* ((u (unit layout)) (s (r-sum (interpret-markup-list layout props items))))
   (sized u (placed u s (- main-x) (- body-y)) main-w (- page-height body-y 19.5))))
