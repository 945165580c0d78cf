% The blocks of the workbook's pages.
% ------------------------------------------------------------------ headings
#(define-markup-command (page-title layout props name text) (string? string?)
  (pile layout props main-w (list 8.4 (markup #:anchor name) (markup #:para 'h1 main-w text) 10)))
#(define-markup-command (opener layout props name title lead) (string? string? string?)
  (pile layout props main-w (append (list 8.4 (markup #:anchor name) (markup #:para 'h1 main-w title))
    (if (string=? lead "") (list 9) (list 2 (markup #:para 'lead main-w lead) 5)))))
#(define-markup-command (section layout props label title) (string? string?)
  (spaced-over (unit layout) 9 (pile layout props main-w (list
    (make-beside-markup (markup #:at 0 5 #:capsA label) (markup #:para 'h2 main-w title)) 2))))
#(define-markup-command (heading layout props title) (string?)
  (spaced-over (unit layout) 7 (pile layout props main-w (list (markup #:para 'h2 main-w title) 2))))
% ------------------------------------------------------------------ facts in the margin
#(define-markup-command (facts layout props pairs) (list?)
  (let ((u (unit layout)))
   (pile layout props 24 (append-map (lambda (p)
     (list (make-caps-line-markup 24 (car p)) 0.4
       (if (number? (cadr p)) (sized u (placed u (r-grade u (cadr p)) 0 3) 24 4.6)
        (if (string? (cadr p)) (make-para-markup 'fact 24 (cadr p))
         (make-line-of-markup 'fact LEFT 24 (make-bpm-markup (car (cadr p)) (cadr (cadr p)) (caddr (cadr p)))))) 2.6)) pairs))))

% what was found, a sentence a line, behind a tick of the accent
#(define-markup-command (findings layout props title sentences) (string? list?)
  (spaced-over (unit layout) 5 (pile layout props main-w (cons* (make-para-markup 'h3 main-w title) 0.8
    (append-map (lambda (sentence)
      (list (sized (unit layout) (interpret-markup layout props (make-at-markup 0 3.1 (make-hline-markup 2.4 0.5 accent))) main-w 0)
        (indented layout props 'text 5 sentence) 0.8)) sentences)))))
% ------------------------------------------------------------------ cards
#(define (card-w) (/ (- main-w (* 2 card-gap)) 3))
#(define-markup-command (cards layout props items) (list?)
  (let ((w (card-w)))
   (spaced-over (unit layout) 8 (side-by-side layout main-w (+ w card-gap)
    (map (lambda (c) (pile layout props w (list (make-at-markup 0 0 (make-hline-markup w 0.5 accent)) 3.4
       (markup #:para 'h3 w (car c)) 0.6 (make-prose-markup 'smallInk w (cadr c))))) items)))))
% a cell: name and how often; its score; what makes it different, and a sentence
#(define-markup-list-command (cell-card layout props w name count score diff words) (number? string? string? markup? string? string?)
  (let ((u (unit layout)))
   (list
     (pile layout props w (list (make-at-markup 0 0 (make-hline-markup w 0.6 (car (cell-look name)))) 3
       (sized u (ly:stencil-add (placed u (r-cell u layout props 0 -1.2 6.4 4.6 name 10.5) 0 3.6)
          (placed u (r-text u layout props w 0 RIGHT (make-tx-markup 'small count)) 0 3.6)) w 7)))
     (interpret-markup layout props score)
     (pile layout props w (list (make-para-markup 'h3A w diff) (make-para-markup 'smallInk w words))))))
% ------------------------------------------------------------------ questions and answers
#(define-markup-command (question layout props no name words) (string? string? string?)
  (spaced-over (unit layout) 8 (pile layout props main-w (list
    (make-beside-markup (markup #:overlay (#:at 0 4 #:capsA question-label #:at 0 13 #:tx 'exno no #:anchor (string-append "question:" name)))
      (pile-markup (list (make-at-markup 0 0 (make-hline-markup main-w 0.5 accent)) 2.4
        (make-para-markup 'lead main-w words) 10 (make-at-markup 0 0 (make-hline-markup main-w 0.2 rule))
        9 (make-at-markup 0 0 (make-hline-markup main-w 0.2 rule)) 4.6
        (make-at-right-markup main-w 0 (make-place-markup "answer-page" (string-append "answer:" name) 34 3)) 2)))))))
#(define question-label "question")

% ------------------------------------------------------------------ an exercise
% Number, dots and cells hang in the margin; the height that counts for spacing is sentence and tempo row.
#(define-markup-command (exercise layout props name no dots chips title task beat tempi count)
   (string? string? number? list? string? scheme? list? list? string?)
  (let* ((u (unit layout))
         (words (append (map (lambda (w) (list 'strong w)) (words-of title)) (words-of task)))
         (lines (text-lines layout props 'task main-w words)) (lead (leading 'task)) (y (+ 1.6 (* lead (length lines))))
         (s (ly:stencil-add
              (interpret-markup layout props (markup #:overlay (
                 #:at margin-dx 4 #:anchor name
                 #:at margin-dx 5.2 #:tx 'exno no #:at margin-dx 10.4 #:grade dots #:at margin-dx 16.4 #:chips chips)))
              (stacked-lines u lines lead)
              (placed u (r-tempos u layout props beat tempi) 0 (+ y 3.4))
              (placed u (r-text u layout props main-w 0 RIGHT (make-tx-markup 'taskB count)) 0 (+ y 3.4)))))
   (ly:make-stencil (ly:stencil-expr s) (cons 0 (* u main-w)) (cons (* u (- (+ y 5))) (* u 3)))))

% ------------------------------------------------------------------ front and back matter
% The page numbers of the contents are places: the furniture prints them.
#(define-markup-command (entry layout props target title words) (string? string? string?)
  (sized (unit layout) (interpret-markup layout props
    (make-linked-markup target (make-overlay-markup (list (make-at-markup margin-dx 4.4 (make-place-markup "entry" target 20 3))
      (make-at-markup 0 4.4 (make-tx-markup 'fact title)) (make-at-markup 58 4.4 (make-tx-markup 'small words)))))) main-w 6.6))
#(define-markup-command (full-rule layout props) ()
  (pile layout props main-w (list (make-at-markup margin-dx 0 (make-hline-markup (- right-x margin-x) 0.2 rule)))))
#(define-markup-command (chapter-entry layout props target number title line strip) (string? string? string? markup? markup?)
  (let ((u (unit layout)))
   (pile layout props main-w (list 1.4 (make-full-rule-markup) 1.2
    (sized u (interpret-markup layout props (make-linked-markup target (make-overlay-markup (list (make-at-markup margin-dx 6 (make-place-markup "chapter-entry" target 20 6))
       (make-at-markup 0 6 (make-tx-markup 'h2 number))
       (make-at-markup 10 6 (make-one-line-markup 'h2 (- main-w 12) title)))))) main-w 7.2)
    (sized u (interpret-markup layout props (make-at-markup 10 3.3 (make-tx-markup 'small line))) main-w 4.4) (make-at-markup 10 0 strip) 0.6))))
#(define-markup-command (part-entry layout props target title) (string? string?)
  (spaced-over (unit layout) 4 (pile layout props main-w (list (make-linked-markup target (make-para-markup 'h3A main-w title)) 1))))
% as many rows as the page has room for
#(define-markup-command (log-page layout props columns) (list?)
  (let* ((full (- right-x margin-x)) (h 8.9) (xs (list 0 28 56 84 112)) (ws (list 25 25 25 25 (- full 112)))
         (rows (inexact->exact (floor (/ (- page-height 53.5) h)))))
   (sized (unit layout) (interpret-markup layout props (make-overlay-markup (append
     (map (lambda (c x) (make-at-markup (+ margin-dx x) 6 (make-capsA-markup c))) columns xs)
     (append-map (lambda (x w) (map (lambda (i) (make-at-markup (+ margin-dx x) (+ 9 (* i h))
        (make-hline-markup w (if (= i 0) 0.5 0.2) (if (= i 0) ink rule)))) (iota (+ rows 1)))) xs ws)))) main-w (+ 9 (* rows h)))))
% The notation key: boxes with a caption over a sign; a row is as high as its signs need, their staves on one line.
#(define key-columns 4)
#(define (key-w) (/ (- main-w 14.1) key-columns))
#(define hollow-changes? #t)
#(define-markup-list-command (key-box layout props caption m) (string? markup?)
  (list (interpret-markup layout props (make-para-markup 'smallInk (key-w) caption))
        (ly:stencil-aligned-to (interpret-markup layout props m) X CENTER)))
#(define (key-row layout props boxes)
  (let* ((u (unit layout)) (w (key-w)) (captions (map car boxes)) (signs (map cadr boxes))
         (base (+ 3.6 (apply max (map (lambda (s) (u-height layout s)) captions)) (reach u signs cdr 1))))
    (side-by-side layout main-w (+ w 4.7)
      (map (lambda (caption sign)
          (sized u (ly:stencil-add (interpret-markup layout props (make-hline-markup w 0.2 rule)) (placed u caption 0 1) (placed u sign (/ w 2) base))
            w (+ base (reach u signs car -1) 3.6)))
        captions signs))))
#(define-markup-command (step-columns layout props items) (list?)
  (let ((w (/ (- main-w 14.1) 4)))
   (side-by-side layout main-w (+ w 4.7)
    (map (lambda (s) (pile layout props w (list (make-para-markup 'exno w (car s)) (make-para-markup 'h3 w (cadr s)) 0.6 (make-para-markup 'smallInk w (caddr s))))) items))))
#(define-markup-command (tempo-sign layout props beat) (list?) (r-tempos (unit layout) layout props beat '(84)))
% a label in the margin, a title and its text; words for those who print small; a picture stands beside the text
#(define-markup-command (labelled layout props label title words) (string? string? scheme?)
  (pile layout props main-w (list (make-beside-markup (make-at-markup 0 4 (make-capsA-markup label))
    (pile-markup (append (if (string=? title "") '() (list (make-para-markup 'h3 main-w title) 2)) (list (make-para-markup 'text (- main-w 16) words))))) 8)))
#(define-markup-command (pictured layout props label title words picture width) (string? string? scheme? markup? number?)
  (pile layout props main-w (list (make-beside-markup (make-at-markup 0 4 (make-capsA-markup label))
    (make-overlay-markup (list (pile-markup (list (make-para-markup 'h3 main-w title) 2 (make-para-markup 'text (- main-w width 10) words)))
      (make-at-markup (- main-w width) 8 picture)))) 8)))
#(define-markup-command (fine-print layout props label paragraphs) (string? list?)
  (pile layout props main-w (list (make-beside-markup (make-at-markup 0 3.4 (make-capsA-markup label))
    (pile-markup (append-map (lambda (text) (list (make-para-markup 'smallInk (- main-w 16) text) 1.6)) paragraphs))) 3)))
#(define-markup-command (answers-of layout props title) (string?)
  (spaced-over (unit layout) 5 (pile layout props main-w (list (make-para-markup 'h3A main-w title) 2))))
#(define-markup-command (answer layout props no name question blocks) (string? string? string? list?)
  (pile layout props main-w (list (make-beside-markup
    (markup #:overlay (#:anchor (string-append "answer:" name) #:at 0 6 #:tx 'exno no #:at 9 4 #:place "question-page" (string-append "question:" name) 14 3))
    (pile-markup (list (make-para-markup 'question main-w question) 2 (make-prose-markup 'text main-w blocks)))) 3)))
#(define-markup-command (part-title layout props name label title) (string? string? string?)
  (pile layout props main-w (list 60 (make-anchor-markup name) (make-at-markup 0 0 (make-capsA-markup label)) 6 (make-para-markup 'h1 main-w title) 8)))
% two figures are narrower than the margin column
#(define-markup-command (chapter-number layout props n) (string?)
  (let ((s (interpret-markup layout props (make-tx-markup 'huge n)))) (fitted s (* (unit layout) 26))))

% The title page from the title down to the picture: a title of more than three lines is set smaller, and what stands
% below it moves down.
#(define-markup-command (title-block layout props title subtitle picture) (string? string? markup?)
  (let* ((u (unit layout)) (set (lambda (m) (interpret-markup layout props m)))
         (lines (lambda (name) (length (text-lines layout props name main-w title))))
         (name (if (> (lines 'book) 3) 'h1 'book))
         (under (+ 3 (* (leading name) (lines name))))
         (said (set (markup #:para 'lead 110 subtitle))))
    (ly:stencil-add (set (markup #:para name main-w title)) (placed u said 0 under)
      (placed u (set picture) 0 (max 70 (+ under (u-height layout said) 8))))))
