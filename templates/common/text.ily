% Words: paragraphs, single lines, what is placed at a spot, and the spots that binding reads. A design's type.ily says
% what its styles are: name, face, size in pt, leading in mm, colour; and, if need be, features of the font.
#(define (unit layout) (ly:output-def-lookup layout 'mm))
#(define (style-of name) (cdr (assq name styles)))
#(define (leading name) (caddr (style-of name)))
#(define (dressed u style face m)
  (make-abs-fontsize-markup (cadr style)
   (make-override-markup `((font-name . ,face) (word-space . ,(* u 0.085 (cadr style))))
    (make-with-color-markup (cadddr style) m))))
#(define-markup-command (tx layout props name m) (symbol? markup?)
  (let ((style (style-of name))) (interpret-markup layout props (dressed (unit layout) style (car style) m))))

% A word is a string, (em "word"), (strong "word"), or (joined "fi" (em "ves")).
#(define (word-markup u style word)
  (cond ((string? word) (dressed u style (car style) word))
        ((eq? (car word) 'em) (dressed u style (emphasis-face (car style)) (cadr word)))
        ((eq? (car word) 'strong) (dressed u style (strong-face (car style)) (cadr word)))
        (else (make-concat-markup (map (lambda (part) (word-markup u style part)) (cdr word))))))
#(define (words-of text) (if (string? text) (string-split text #\space) text))

% A line that is too wide for its column (one long word) is made smaller, so that nothing runs off the page.
#(define (fitted line width)
  (let ((w (interval-length (ly:stencil-extent line X))))
    (if (> w width) (ly:stencil-scale line (/ width w) (/ width w)) line)))
% The lines of a paragraph; each has its base line at 0.
#(define (text-lines layout props name width text)
  (let* ((u (unit layout)) (style (style-of name))
         (props (prepend-alist-chain 'line-width (* u width)
                 (prepend-alist-chain 'word-space (* u 0.085 (cadr style)) props))))
    (map (lambda (line) (fitted line (* u width)))
     (interpret-markup-list layout props
      (make-wordwrap-lines-markup-list (map (lambda (w) (word-markup u style w)) (words-of text)))))))
% A stencil from its top edge at 0 down to -height; what it shows does not matter for spacing.
#(define (sized u stencil width height)
  (ly:make-stencil (ly:stencil-expr stencil) (cons 0 (* u width)) (cons (* u (- height)) 0)))
% Lines under one another on the style's leading, the first base line 0.72 of it below the top.
#(define (stacked-lines u lines lead)
  (apply ly:stencil-add empty-stencil
   (map (lambda (line i) (ly:stencil-translate-axis line (* u (- (* lead (+ i 0.72)))) Y)) lines (iota (length lines)))))
#(define-markup-command (para layout props name width text) (symbol? number? scheme?)
  (let* ((u (unit layout)) (lines (text-lines layout props name width text)) (lead (leading name)))
    (sized u (stacked-lines u lines lead) width (* lead (length lines)))))
% A centred or right-aligned single line with its base line where a paragraph of the style would have it.
#(define-markup-command (line-of layout props name dir width text) (symbol? number? number? markup?)
  (let* ((u (unit layout)) (lead (leading name)) (s (interpret-markup layout props (make-tx-markup name text)))
         (s (fitted s (* u width))))
    (sized u (ly:stencil-translate (ly:stencil-aligned-to s X dir)
              (cons (* u width (/ (+ dir 1) 2)) (* u -0.72 lead))) width lead)))

% labels, as the design sets them; alone, or on a line where a paragraph of the style would have it
#(define-markup-command (caps layout props text) (string?) (set-label layout props 'label text))
#(define-markup-command (capsA layout props text) (string?) (set-label layout props 'labelA text))
#(define-markup-command (caps-line layout props width text) (number? string?)
  (let* ((u (unit layout)) (lead (leading 'label)) (s (fitted (set-label layout props 'label text) (* u width))))
    (sized u (ly:stencil-translate-axis s (* u -0.72 lead) Y) width lead)))

% placing in a block: x from the main column's left edge, y downwards from the block's top, both mm
#(define (placed u stencil x y) (ly:stencil-translate stencil (cons (* u x) (* u (- y)))))
#(define-markup-command (at layout props x y m) (number? number? markup?)
  (placed (unit layout) (interpret-markup layout props m) x y))
#(define-markup-command (at-right layout props x y m) (number? number? markup?)
  (placed (unit layout) (ly:stencil-aligned-to (interpret-markup layout props m) X RIGHT) x y))
#(define-markup-command (hline layout props w th colour) (number? number? color?)
  (let ((u (unit layout)))
    (stencil-with-color (ly:round-filled-box (cons 0 (* u w)) (cons (* u (/ th -2)) (* u (/ th 2))) 0) colour)))

% Places that binding reads: a rectangle with a private address and no ink.
#(define (spot u address x0 y0 x1 y1)
  (ly:make-stencil (list 'url-link address (cons (* u x0) (* u x1)) (cons (* u y0) (* u y1))) empty-interval empty-interval))
#(define-markup-command (anchor layout props name) (string?)
  (spot (unit layout) (string-append "engraver:anchor/" name) 0 -1 4 0))
#(define-markup-command (linked layout props name m) (string? markup?)
  (let* ((s (interpret-markup layout props m)) (u (unit layout))
         (x (ly:stencil-extent s X)) (y (ly:stencil-extent s Y)))
    (ly:stencil-add s (spot 1 (string-append "engraver:link/" name) (car x) (car y) (cdr x) (cdr y)))))
#(define-markup-command (place layout props kind name width height) (string? string? number? number?)
  (let ((u (unit layout)))
    (ly:make-stencil (ly:stencil-expr (spot u (string-append "engraver:place/" kind "/" name) 0 0 width height))
      (cons 0 (* u width)) (cons 0 (* u height)))))
