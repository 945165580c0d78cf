% Blocks of the flow: things under and beside one another. Each is measured: it hangs down from its base at 0 by its height,
% reaches above it by the space it wants there, and what hangs in the margin counts nothing.
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

% a list in lists of n, the last one shorter
#(define (bundles n items)
  (if (<= (length items) n) (if (null? items) '() (list items)) (cons (list-head items n) (bundles n (list-tail items n)))))
% how far signs on one line reach: upwards with cdr and 1, downwards with car and -1
#(define (reach u signs side dir) (apply max 0 (map (lambda (s) (/ (* dir (side (ly:stencil-extent s Y))) u)) signs)))
% cards, each of a head, a score and words; the staves of a row stand on one line
#(define (card-row layout w cards)
  (let* ((u (unit layout)) (scores (map cadr cards))
         (base (+ (apply max (map (lambda (card) (u-height layout (car card))) cards)) (reach u scores cdr 1)))
         (foot (+ base 2.4 (reach u scores car -1))))
    (side-by-side layout main-w (+ w card-gap)
      (map (lambda (card)
          (sized u (ly:stencil-add (car card) (placed u (cadr card) 0 base) (placed u (caddr card) 0 foot))
            w (+ foot (u-height layout (caddr card)))))
        cards))))
#(define-markup-list-command (card-rows layout props per-row items) (number? markup-list?)
  (let ((w (/ (- main-w (* card-gap (- per-row 1))) per-row)))
    (map (lambda (cards) (let ((row (card-row layout w cards))) (sized (unit layout) row main-w (+ 4 (u-height layout row)))))
      (bundles per-row (bundles 3 (interpret-markup-list layout props items))))))

% The notation key, in rows as the design sets them; its first two rows are one and its last two, so that none stands on
% a page alone.
#(define (ends-joined layout props rows)
  (let ((joined (lambda (rows) (list (pile layout props main-w rows)))) (k (- (length rows) 2)))
    (if (< k 2) (joined rows)
      (append (joined (list-head rows 2)) (list-head (list-tail rows 2) (- k 2)) (joined (list-tail rows k))))))
% One block where a page has room for it under the steps, which are as high as a dozen lines of text.
#(define-markup-list-command (key-rows layout props items) (markup-list?)
  (let* ((boxes (bundles 2 (interpret-markup-list layout props items)))
         (rows (map (lambda (row) (key-row layout props row)) (bundles key-columns boxes))) (whole (pile layout props main-w rows))
         (room (- page-height body-y foot-room (* 11 (leading 'text)))))
    (if (< (u-height layout whole) room) (list whole) (ends-joined layout props rows))))

#(define-markup-command (piled layout props items) (list?) (pile layout props main-w items))
#(define (pile-markup items) (make-piled-markup items))
% a whole page drawn from its top left corner: furniture and the title page
#(define-markup-command (canvas layout props items) (markup-list?)
  (let* ((u (unit layout)) (s (r-sum (interpret-markup-list layout props items))))
   (sized u (placed u s (- main-x) (- body-y)) main-w (- page-height body-y foot-room))))

% what stands at the foot of a page that holds nothing else
#(define-markup-command (at-foot layout props items) (list?)
  (let* ((u (unit layout)) (s (pile layout props main-w items)) (h (- page-height body-y foot-room)))
    (sized u (placed u s 0 (- h (u-height layout s))) main-w h)))
% one line, made smaller if it is too long
#(define-markup-command (one-line layout props name width text) (symbol? number? markup?)
  (fitted (interpret-markup layout props (make-tx-markup name text)) (* (unit layout) width)))

% Rows in columns, page after page. A row is (stencil stays?): one that stays is not parted from the next. What a row
% reaches above its base is space over it, which falls away at the top of a column. The columns of the last page are made
% as long as one another.
#(define (row-over layout row) (/ (cdr (ly:stencil-extent (car row) Y)) (unit layout)))
#(define (rows-height layout rows)
  (apply + (map (lambda (row) (+ (row-over layout row) (u-height layout (car row)))) rows)))
#(define (together rows)
  (let loop ((rows rows) (out '()))
    (if (or (null? rows) (not (cadr (car rows)))) (reverse (if (null? rows) out (cons (car rows) out)))
      (loop (cdr rows) (cons (car rows) out)))))
#(define (one-column layout rows room)
  (let loop ((rest rows) (used (- (row-over layout (car rows)))) (out '()))
    (let* ((next (together rest)) (h (rows-height layout next)))
      (if (or (null? rest) (and (pair? out) (> (+ used h) room))) (cons (reverse out) rest)
        (loop (list-tail rest (length next)) (+ used h) (append (reverse next) out))))))
#(define (one-page layout n rows room)
  (let loop ((k n) (rows rows) (columns '()))
    (if (or (= k 0) (null? rows)) (cons (reverse columns) rows)
      (let ((column (one-column layout rows room))) (loop (- k 1) (cdr column) (cons (car column) columns))))))
#(define (even-page layout n rows room)
  (let loop ((try (/ (- (rows-height layout rows) 5) n)))
    (let ((page (one-page layout n rows (min try room))))
      (if (or (null? (cdr page)) (>= try room)) page (loop (+ try 1))))))
#(define (column-pages layout n rows first-room room)
  (let loop ((rows rows) (here first-room) (out '()))
    (if (null? rows) (reverse out)
      (let* ((full (one-page layout n rows here)) (page (if (null? (cdr full)) (even-page layout n rows here) full)))
        (loop (cdr page) room (cons (car page) out))))))
#(define (set-columns layout props width column pages)
  (map (lambda (columns) (side-by-side layout width column (map (lambda (rows) (column-of layout props (- column 10) rows)) columns))) pages))
#(define (column-of layout props width rows)
  (pile layout props width (cdr (append-map (lambda (row) (list (row-over layout row) (car row))) rows))))
% index groups: (label-or-grade ((words numbers) ...)); a short one stays together, a longer one keeps its first two entries
#(define whole-group 12)
#(define (index-rows layout props w group)
  (let* ((u (unit layout)) (entries (cadr group)) (n (length entries)))
    (cons (list (spaced-over u 3 (pile layout props w (list (if (number? (car group)) (sized u (placed u (r-grade u (car group)) 0 3) w 5) (make-caps-line-markup w (car group))) 1))) #t)
      (map (lambda (e i) (list (index-entry layout props w (car e) (cadr e)) (and (< i (- n 1)) (or (= i 0) (<= n whole-group)))))
        entries (iota n)))))
% the numbers stand on the last line of the words
#(define (index-entry layout props w words numbers)
  (let* ((u (unit layout)) (n (index-numbers layout props numbers)) (nw (/ (interval-length (ly:stencil-extent n X)) u))
         (alone (> nw (* 0.6 w)))  ; then the numbers have lines of their own, in which none is a link
         (s (if alone (pile layout props w (list (make-para-markup 'num w words) (make-para-markup 'num (- w 4) (plain-numbers numbers))))
                (interpret-markup layout props (make-para-markup 'num (max 20 (- w nw 4)) words)))) (h (u-height layout s)))
    (sized u (ly:stencil-add s (if alone empty-stencil (placed u (ly:stencil-aligned-to n X RIGHT) w (- h (* 0.28 (leading 'num)))))) w (+ h 1))))
% page numbers, each a link to what it names: (text target); or a text of another kind
#(define (plain-numbers numbers) (if (string? numbers) numbers (string-join (map car numbers) ", ")))
#(define (index-numbers layout props numbers)
  (interpret-markup layout props
   (if (string? numbers) (make-tx-markup 'num numbers) (make-concat-markup (append-map (lambda (n i) (let ((m (make-linked-markup (cadr n) (make-tx-markup 'num (car n))))) (if (= i 0) (list m) (list (make-tx-markup 'num ", ") m))))
    numbers (iota (length numbers)))))))
% heads: what stands over the columns of the first page; each page is one block, so that no two share a page
#(define-markup-list-command (index-lines layout props heads groups) (markup-list? list?)
  (let* ((heads (interpret-markup-list layout props heads)) (column (/ (+ main-w 10) 2))
         (rows (append-map (lambda (g) (index-rows layout props (- column 10) g)) groups))
         (room (- page-height body-y foot-room 0.5)) (over (apply + (map (lambda (s) (u-height layout s)) heads))))
    (let ((pages (set-columns layout props main-w column (column-pages layout 2 rows (- room over) room))))
      (cons (pile layout props main-w (append heads (list (car pages)))) (cdr pages)))))
