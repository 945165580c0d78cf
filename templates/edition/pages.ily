% The blocks of the edition's pages: labels and headings at the left, text in the body column, music over the full measure.
#(define-markup-command (rule-across layout props th colour) (number? color?) (interpret-markup layout props (make-hline-markup main-w th colour)))
% a block in the body column with something in the label column, both on one base line
#(define-markup-command (beside layout props label body) (markup? markup?)
  (let* ((u (unit layout)) (s (interpret-markup layout props body)) (l (interpret-markup layout props label)))
    (sized u (ly:stencil-add l (placed u s text-x 0)) main-w (u-height layout s))))
#(define (label-at-text text) (make-at-markup 0 4 (make-caps-markup text)))

% ------------------------------------------------------------------ headings
#(define-markup-command (page-title layout props name text) (string? string?)
  (pile layout props main-w (list 8 (markup #:anchor name) (markup #:para 'h1 main-w text) 2 (make-at-markup 0 0 (make-rule-across-markup 0.18 ink)) 9)))
#(define-markup-command (opener layout props name title lead) (string? string? string?)
  (let ((style (if (> (string-length title) 24) 'h2 'h1)))
    (pile layout props main-w (append (list 12 (markup #:anchor name) (markup #:para style main-w title))
      (if (string=? lead "") '() (list 0.5 (markup #:para 'lead main-w lead)))
      (list 2.5 (make-at-markup 0 0 (make-rule-across-markup 0.18 ink)) 1)))))
% a rule over a block; where that begins a page it falls away
#(define-markup-command (divider layout props space) (number?)
  (let ((u (unit layout))) (spaced-over u space (sized u (interpret-markup layout props (make-rule-across-markup 0.12 rule)) main-w 0))))
% the label is the heading, what the section shows stands beside it
#(define-markup-command (section layout props label title) (string? string?)
  (let* ((u (unit layout)) (head (make-tx-markup 'h2 (string-append (string-upcase (substring label 0 1)) (substring label 1))))
         (s (interpret-markup layout props head)) (w (/ (cdr (ly:stencil-extent s X)) u)) (x (max text-x (+ w 6)))
         (p (interpret-markup layout props (make-para-markup 'text (- main-w x) title))))
    (spaced-over u 8 (pile layout props main-w (list
      (sized u (ly:stencil-add (placed u s 0 6.8) (placed u p x 2.8)) main-w (max 9 (+ 2.8 (u-height layout p)))) 1)))))
#(define-markup-command (heading layout props title) (string?)
  (spaced-over (unit layout) 7 (pile layout props main-w (list (make-at-markup 0 3.2 (make-caps-markup title)) 6))))

% ------------------------------------------------------------------ the opening page
% facts in columns between rules, in two rows where one is too narrow
#(define (fact-cell layout props fact)
  (let* ((u (unit layout)) (value (cadr fact))
         (s (ly:stencil-add (placed u (set-label layout props 'label (car fact)) 0 3.4)
           (placed u (interpret-markup layout props (make-tx-markup 'fact (if (string? value) value (make-bpm-markup (car value) (cadr value) (caddr value))))) 0 9))))
    (cons s (/ (cdr (ly:stencil-extent s X)) u))))
#(define (fact-row layout cells)
  (let* ((u (unit layout)) (free (- main-w (apply + (map cdr cells)))) (gap (min 14 (/ free (max 1 (- (length cells) 1))))))
    (let loop ((cells cells) (x 0) (out empty-stencil))
      (if (null? cells) (sized u out main-w 12)
        (loop (cdr cells) (+ x (cdar cells) gap) (ly:stencil-add out (placed u (caar cells) x 0)))))))
#(define-markup-command (facts layout props pairs) (list?)
  (let* ((cells (map (lambda (fact) (fact-cell layout props fact)) pairs)) (n (length cells))
         (fits? (<= (+ (apply + (map cdr cells)) (* 5 (- n 1))) main-w)) (half (quotient (+ n 1) 2)))
    (pile layout props main-w (append (if fits? (list (fact-row layout cells)) (list (fact-row layout (list-head cells half)) (fact-row layout (list-tail cells half))))
      (list (make-at-markup 0 0 (make-rule-across-markup 0.12 rule)) 5)))))
% a label and sentences; cards: (title blocks) each
#(define-markup-command (watch-for layout props label sentences cards) (string? list? list?)
  (spaced-over (unit layout) 4 (pile layout props main-w (list
    (make-beside-markup (label-at-text label)
      (make-piled-markup (append
        (append-map (lambda (sentence) (list (make-para-markup 'text text-w sentence) 1)) sentences)
        (append-map (lambda (card) (list 1 (make-para-markup 'h3 text-w (car card)) (make-prose-markup 'text text-w (cadr card)))) cards)
        (if (pair? cards) '(-2) '()))))))))

% ------------------------------------------------------------------ cells
% name and how often; its score; what makes it different
#(define-markup-list-command (cell-card layout props w name count score diff words) (number? string? string? markup? string? string?)
  (let ((u (unit layout)) (col (car (cell-look name))))
   (list
     (sized u (ly:stencil-add (placed u (r-face layout props u 0 0 LEFT schola-b 22 col name) 0 7)
        (placed u (r-text u layout props w 0 RIGHT (make-tx-markup 'small count)) 0 7)
        (placed u (interpret-markup layout props (make-hline-markup w 0.42 col)) 0 9.4)) w 13)
     (interpret-markup layout props score)
     (interpret-markup layout props (make-para-markup 'smallInk w (append (map (lambda (word) (list 'strong word)) (words-of diff)) (words-of words)))))))

% ------------------------------------------------------------------ questions and answers
#(define question-label "question")
#(define-markup-command (question layout props no name words) (string? string? string?)
  (spaced-over (unit layout) 4 (pile layout props main-w (list
    (make-beside-markup (markup #:overlay (#:at 0 4 #:capsA question-label #:anchor (string-append "question:" name)))
      (make-overlay-markup (list (make-at-markup 0 4.06 (make-tx-markup 'exno no))
        (make-at-markup 7 0 (make-para-markup 'text (- text-w 7) words)))))
    9 (make-at-markup (+ text-x 7) 0 (make-hline-markup (- text-w 7) 0.12 rule)) 8
    (make-at-markup (+ text-x 7) 0 (make-hline-markup (- text-w 7) 0.12 rule)) 4.6
    (make-at-right-markup main-w 0 (make-place-markup "answer-page" (string-append "answer:" name) 40 3)) 2))))
#(define-markup-command (answers-of layout props title) (string?)
  (spaced-over (unit layout) 6 (pile layout props main-w (list (make-para-markup 'h3A main-w title) 0.5 (make-at-markup 0 0 (make-rule-across-markup 0.12 rule)) 4))))
#(define-markup-command (answer layout props no name question blocks) (string? string? string? list?)
  (let ((w (- main-w 15)))
    (pile layout props main-w (list (make-overlay-markup (list
      (make-at-markup 8 4 (make-tx-markup 'exno no)) (markup #:anchor (string-append "answer:" name))
      (make-at-markup 15 0 (make-piled-markup (list (make-para-markup 'question (- w 22) question) 1 (make-prose-markup 'text w blocks))))
      (make-at-right-markup main-w 4 (make-place-markup "question-page" (string-append "question:" name) 14 3)))) 3))))

% ------------------------------------------------------------------ an exercise
% Number, sentence and tempos on one line where they fit; more than five tempos have a line of their own.
#(define (e-tempos u layout props beat tempi)
  (let* ((log (car beat)) (sign (r-face layout props u (if log 3.6 0) 0 LEFT schola 10 ink (caddr beat)))
         (x (max 8 (+ 2 (/ (cdr (ly:stencil-extent sign X)) u)))) (right (lambda (i) (+ x 5.4 (* i 11)))))
    (r-sum (append (list (if log (beat-note layout props log (cadr beat) 10) empty-stencil) sign)
      (map (lambda (tempo i) (ly:stencil-add (r-face layout props u (right i) 0 RIGHT schola 10 ink (number->string tempo))
          (e-outline u (+ (right i) 1) -0.35 (+ (right i) 3.7) 2.35 0.18 ink))) tempi (iota (length tempi)))))))
#(define (exercise-lines layout props title task width)
  (text-lines layout props 'task width (append (map (lambda (word) (list 'strong word)) (words-of title)) (words-of task))))
#(define-markup-command (exercise layout props name no dots chips title task beat tempi count)
   (string? string? number? list? string? scheme? list? list? string?)
  (let* ((u (unit layout)) (row (e-tempos u layout props beat tempi)) (row-w (/ (cdr (ly:stencil-extent row X)) u))
         (below? (> row-w 70)) (width (if below? (- main-w 40) (- main-w row-w 34)))
         (lines (exercise-lines layout props title task width)) (lead (leading 'task)) (y (* lead (length lines)))
         (s (r-sum (list (interpret-markup layout props (markup #:overlay (#:anchor name #:at 0 3.7 #:tx 'exno no)))
              (placed u (stacked-lines u lines lead) 11.5 0)
              (placed u row (if below? 11.5 (- main-w row-w 18)) (if below? (+ y 4.2) 3.7))
              (placed u (r-grade u dots) (- main-w 15) (if below? 3.7 8.6))
              (placed u (r-text u layout props main-w 0 RIGHT (make-tx-markup 'taskB count)) 0 (if below? (+ y 4.2) 3.7))))))
    (ly:make-stencil (ly:stencil-expr s) (cons 0 (* u main-w)) (cons (* u (- (+ (if below? (+ y 5.4) (max y 9)) 0.6))) (* u 6)))))

% ------------------------------------------------------------------ front and back matter
% a row of dots on one grid for all rows
#(define (leader-dots u from to)
  (let* ((first (inexact->exact (ceiling (/ from 2.1)))) (after (inexact->exact (floor (/ to 2.1)))))
    (r-sum (map (lambda (i) (r-dot u (* i 2.1) 0.2 0.2 soft)) (if (> after first) (iota (- after first) first) '())))))
#(define (leader-row layout props target x number title remark)
  (let* ((u (unit layout)) (s (interpret-markup layout props (make-line-markup (list (make-one-line-markup 'factA (- main-w x 60) title)))))
         (r (if (string=? remark "") empty-stencil (interpret-markup layout props (make-one-line-markup 'small (- main-w x 30) remark))))
         (w (/ (cdr (ly:stencil-extent s X)) u)) (rw (if (string=? remark "") 0 (+ 2 (/ (cdr (ly:stencil-extent r X)) u)))))
    (sized u (r-sum (list
      (interpret-markup layout props (make-linked-markup target (make-overlay-markup (list
        (make-at-right-markup (- x 5) 5 (make-tx-markup 'factA number)) (make-at-markup x 5 (make-stencil-markup s))
        (make-at-markup (+ x w 2) 5 (make-stencil-markup r)) (make-at-markup (- main-w 20) 5 (make-place-markup "leader" target 20 3))))))
      (placed u (leader-dots u (+ x w rw 2) (- main-w 9)) 0 5))) main-w 7.4)))
#(define-markup-command (entry layout props target title words) (string? string? string?) (leader-row layout props target 12 "" title ""))
#(define-markup-command (chapter-entry layout props target number title remark) (string? string? string? string?)
  (leader-row layout props target 12 number title remark))
#(define-markup-command (part-entry layout props target title) (string? string?)
  (spaced-over (unit layout) 7 (pile layout props main-w (list (make-linked-markup target (make-at-markup 0 3.4 (make-capsA-markup title))) 5))))
#(define-markup-command (labelled layout props label title words) (string? string? scheme?)
  (pile layout props main-w (list (make-beside-markup (label-at-text label)
    (make-piled-markup (append (if (string=? title "") '() (list (make-para-markup 'h3 text-w title) 0.6)) (list (make-para-markup 'text text-w words))))) 5)))
#(define-markup-command (pictured layout props label title words picture width) (string? string? scheme? markup? number?)
  (pile layout props main-w (list (make-labelled-markup label title words)
    (make-beside-markup (make-gap-markup 0) picture) 4)))
#(define-markup-command (fine-print layout props label paragraphs) (string? list?)
  (pile layout props main-w (list (make-at-markup 0 0 (make-rule-across-markup 0.12 rule)) 3
    (make-beside-markup (make-at-markup 0 3.4 (make-caps-markup label))
      (make-piled-markup (append-map (lambda (text) (list (make-para-markup 'smallInk text-w text) 1)) paragraphs))) 3)))
#(define-markup-command (part-title layout props name label title) (string? string? string?)
  (pile layout props main-w (list 60 (make-anchor-markup name) (make-at-markup 0 0 (make-capsA-markup label)) 5 (make-para-markup 'h1 main-w title)
    3 (make-at-markup 0 0 (make-rule-across-markup 0.18 ink)) 8)))
% rows of a label and a text, one for each step
#(define-markup-command (step-columns layout props items) (list?)
  (pile layout props main-w (append-map (lambda (item) (list (make-beside-markup (label-at-text (cadr item)) (make-para-markup 'text text-w (caddr item))) 2.4)) items)))
% the key: five signs in a row, their staves on one line, the name under each; a row is as high as its signs need
#(define key-columns 5)
#(define (key-w) (/ (- main-w 20) key-columns))
#(define hollow-changes? #f)
#(define-markup-list-command (key-box layout props caption m) (string? markup?)
  (list (interpret-markup layout props (make-para-markup 'smallInk (key-w) caption)) (interpret-markup layout props m)))
#(define (key-row layout props boxes)
  (let* ((u (unit layout)) (w (key-w)) (signs (map cadr boxes)) (base (+ 2 (reach u signs cdr 1))) (under (+ base (reach u signs car -1) 2.2)))
    (side-by-side layout main-w (+ w 5)
      (map (lambda (caption sign)
          (sized u (ly:stencil-add (placed u sign 0 base) (placed u caption 0 under)) w (+ under (u-height layout caption) 3)))
        (map car boxes) signs))))
#(define-markup-command (tempo-sign layout props beat) (list?) (e-tempos (unit layout) layout props beat '(84)))
% as many rows as the page has room for
#(define-markup-command (log-page layout props columns) (list?)
  (let* ((u (unit layout)) (h 9.4) (rows (inexact->exact (floor (/ (- page-height body-y foot-room 26) h)))) (top 18)
         (xs '(0 26 54 78 102)))
    (sized u (interpret-markup layout props (make-overlay-markup (append
        (map (lambda (c x) (make-at-markup (if (= x 0) 0 (+ x 1.5)) (- top 3) (make-caps-markup c))) columns xs)
        (list (make-at-markup 0 top (make-rule-across-markup 0.25 ink)))
        (map (lambda (i) (make-at-markup 0 (+ top (* h (+ i 1))) (make-rule-across-markup 0.12 rule))) (iota rows))
        (map (lambda (x) (make-at-markup x top (make-stencil-markup (r-line u 0 0 0 (- (* h rows)) 0.12 rule)))) (cdr xs)))))
      main-w (+ top (* h rows)))))

% ------------------------------------------------------------------ title page and furniture
#(define-markup-command (chapter-label layout props text) (string?) (set-label layout props 'huge text))
#(define-markup-command (centred layout props y m) (number? markup?)
  (let ((u (unit layout))) (placed u (ly:stencil-aligned-to (interpret-markup layout props m) X CENTER) (/ page-width 2) y)))
% an ornament: the steps of a cross-rhythm on a circle, the cells and the beats in it
#(define-markup-command (title-circle layout props steps cell beat r) (number? number? number? number?)
  (let* ((u (unit layout)) (tau 6.283185307179586)
         (at (lambda (i) (let ((a (- (/ tau 4) (* tau (/ i steps))))) (cons (* r (cos a)) (* r (sin a))))))
         (every (lambda (k) (map (lambda (i) (* i k)) (iota (quotient steps k)))))
         (polygon (lambda (places th col)
           (let ((points (map at places)))
             (r-sum (map (lambda (p q) (r-line u (car p) (cdr p) (car q) (cdr q) th col)) points (append (cdr points) (list (car points)))))))))
    (r-sum (append (list (r-ring u 0 0 r 0.12 rule) (polygon (every beat) 0.18 soft) (polygon (every cell) 0.32 accent))
      (map (lambda (i) (let ((p (at i)))
        (cond ((= 0 (modulo i cell)) (r-dot u (car p) (cdr p) 1.3 accent))
              ((= 0 (modulo i beat)) (r-ring u (car p) (cdr p) 1.2 0.25 ink))
              (else (r-dot u (car p) (cdr p) 0.45 rule))))) (iota steps))))))
#(define-markup-command (fit-title layout props text) (string?) (interpret-markup layout props (make-one-line-markup 'book main-w text)))
