% The flow: which lines stand on which page, and where. A line is a block of markup or a system, and its height is known
% here, since it has been set. In: LilyPond's lines in order, with the breaks that the source allows, forbids and forces.
% Out: as few pages as hold them, filled as evenly as the blocks allow, and on each page a mark that says how full it is.
% A block's ink hangs down from its base at 0; what reaches above 0 is space, which falls away at the top of a page.
% LilyPond's own page breaking guesses heights before the music is set, and leaves out ribbons and rows of text.
#(use-modules (lily page) (lily paper-system))
#(define flow-give 3)                        % mm that may be added over a block of music where a page has room
#(define flow-take 1.5)                      % mm that may be taken there, but no more than half of the space
#(define flow-lonely 0.25)                   % a page that is less full than this is avoided

#(define (line-extent line)
  (let ((y (paper-system-extent line Y))) (if (interval-empty? y) '(0 . 0) y)))
#(define (title? line) (paper-system-title? line))
#(define (spacing-of spec key) (or (assq-ref spec key) 0))
#(define (flow-spec paper above below)
  (ly:output-def-lookup paper
    (if (title? above) (if (title? below) 'markup-markup-spacing 'markup-system-spacing)
                       (if (title? below) 'score-markup-spacing 'system-system-spacing))))
% from the base of a line to that of the next: edges keep the padding, staves besides it the basic distance
#(define (flow-step paper above below)
  (let* ((spec (flow-spec paper above below))
         (edges (+ (- (car (line-extent above))) (spacing-of spec 'padding) (cdr (line-extent below)))))
    (if (or (title? above) (title? below)) edges
      (max edges (+ (spacing-of spec 'basic-distance)
                    (- (cdr (paper-system-staff-extents below)) (car (paper-system-staff-extents above))))))))
#(define (first-base line) (if (title? line) 0 (cdr (line-extent line))))
% a rule between blocks: space over it and no height; it does not stand at the top of a page
#(define (divider? line) (and (title? line) (= 0 (car (line-extent line))) (< 0 (cdr (line-extent line)))))
#(define (begun groups)
  (let ((group (car groups))) (if (and (divider? (car group)) (pair? (cdr group))) (cons (cdr group) (cdr groups)) groups)))

% A group is never parted: its lines, and the permission to break after it.
#(define (flow-groups lines)
  (let loop ((lines lines) (group '()) (groups '()))
    (if (null? lines) (reverse (if (null? group) groups (cons (reverse group) groups)))
      (let ((group (cons (car lines) group)))
        (if (memq (ly:prob-property (car lines) 'page-break-permission) '(allow force))
          (loop (cdr lines) '() (cons (reverse group) groups))
          (loop (cdr lines) group groups))))))
% A group that no page can hold is parted all the same: before the last title that leaves a page full, else between two
% staves, else between two titles; never between a title and its staff.
#(define (parting-rank above below)
  (cond ((title? below) (if (title? above) 1 3)) ((title? above) 0) (else 2)))
#(define (parting paper room group)
  (let loop ((k 1) (at #f) (best 1))
    (if (or (>= k (length group)) (not (has-room? paper room (list-head group k)))) at
      (let ((rank (parting-rank (list-ref group (- k 1)) (list-ref group k))))
        (if (>= rank best) (loop (+ k 1) k rank) (loop (+ k 1) at best))))))
#(define (fitting paper room groups)
  (append-map
    (lambda (group)
      (let ((k (and (not (has-room? paper room group)) (parting paper room group))))
        (if k (cons (list-head group k) (fitting paper room (list (list-tail group k)))) (list group))))
    groups))
#(define (forced-after? group) (eq? 'force (ly:prob-property (last group) 'page-break-permission)))
#(define (flow-runs groups)
  (let loop ((groups groups) (run '()) (runs '()))
    (if (null? groups) (reverse (if (null? run) runs (cons (reverse run) runs)))
      (let ((run (cons (car groups) run)))
        (if (forced-after? (car groups)) (loop (cdr groups) '() (cons (reverse run) runs)) (loop (cdr groups) run runs))))))

% bases of lines that begin a page, and how far down they reach
#(define (flow-bases paper lines)
  (let loop ((bases (list (first-base (car lines)))) (lines lines))
    (if (null? (cdr lines)) (reverse bases)
      (loop (cons (+ (car bases) (flow-step paper (car lines) (cadr lines))) bases) (cdr lines)))))
#(define (flow-depth paper lines)
  (- (last (flow-bases paper lines)) (car (line-extent (last lines)))))

% what sums of lengths may be off by counts nothing
#(define (has-room? paper room lines) (<= (flow-depth paper lines) (* 1.0001 room)))

#(define (takes-room? group) (and (title? (car group)) (any (lambda (line) (not (title? line))) group)))
#(define (takers groups) (filter takes-room? (cdr groups)))
#(define (most-taken paper groups)
  (let ((spaces (map (lambda (group) (/ (cdr (line-extent (car group))) 2)) (takers groups))))
    (* (length spaces) (apply min (* flow-take (ly:output-def-lookup paper 'mm)) spaces))))
% What is wrong with a page of these groups, from 0; #f if they have no room. A page more outweighs everything; white
% counts less at the end; then come a page with next to nothing, one with a single block, a passage that is parted, one
% from which room is taken.
#(define (page-fault paper room groups last? goes-on?)
  (let* ((lines (concatenate groups)) (full (/ (flow-depth paper lines) room)) (white (max 0 (- 1 full))))
    (if (and (pair? (cdr groups)) (not (has-room? paper (+ room (most-taken paper groups)) lines))) #f
      (+ 10 (* (if last? 0.15 1) white white)
         (if (> full 1.0001) 0.2 0)
         (if (or (< full flow-lonely) (null? (cdr lines))) 2 0)
         (if (and (< full 0.6) (null? (cdr groups))) 0.15 0)
         (if goes-on? 0.3 0)))))
% the best pages that begin with the first group: (fault page ...); a table keeps what was found
#(define (best-pages paper room groups)
  (let* ((n (length groups)) (best (make-vector (+ n 1) #f)))
    (vector-set! best n '(0))
    (do ((first (- n 1) (- first 1))) ((< first 0) (cdr (vector-ref best 0)))
      (let loop ((after (+ first 1)))
        (if (<= after n)
          (let* ((page (begun (list-head (list-tail groups first) (- after first))))
                 (goes-on? (and (< after n) (not (title? (car (list-ref groups after)))) (not (title? (last (last page))))))
                 (fault (page-fault paper room page (= after n) goes-on?)) (rest (vector-ref best after))
                 (found (vector-ref best first)))
            (if fault
              (begin
                (if (or (not found) (< (+ fault (car rest)) (car found)))
                  (vector-set! best first (cons* (+ fault (car rest)) page (cdr rest))))
                (loop (+ after 1))))))))))

% Where there is room, a little of it stands over each block of music but the first; where it is short, a little is taken.
#(define (room-over paper room groups most)
  (let ((n (length (takers groups))))
    (if (= n 0) 0 (min most (/ (- room (flow-depth paper (concatenate groups))) n)))))
#(define (spread paper groups over)
  (let loop ((bases (flow-bases paper (concatenate groups))) (groups groups) (moved 0) (out '()))
    (if (null? groups) (concatenate (reverse out))
      (let ((n (length (car groups))) (moved (if (and (pair? out) (takes-room? (car groups))) (+ moved over) moved)))
        (loop (list-tail bases n) (cdr groups) moved
          (cons (map (lambda (base) (+ base moved)) (list-head bases n)) out))))))

% a block says how much of its space was taken, for whoever looks at what lies on what
#(define (note-taken groups over)
  (if (< over 0) (for-each (lambda (group) (ly:prob-set-property! (car group) 'taken (- over))) (takers groups))))
#(define (fill-mark paper full)
  (let ((mm (ly:output-def-lookup paper 'mm)))
    (ly:make-prob 'paper-system '() 'is-title #t 'stencil
      (ly:make-stencil (list 'url-link (format #f "engraver:fill/~a" (inexact->exact (round (* 1000 full)))) (cons 0 mm) (cons (- mm) 0))
        empty-interval empty-interval))))
#(define (flow-page book number paper room groups over)
  (let* ((page (make-page book number #f)) (lines (concatenate groups)) (bases (spread paper groups over))
         (full (/ (- (last bases) (car (line-extent (last lines)))) room)))
    (if (> full 1.002) (ly:warning "~a" (format #f "page ~a holds ~a % of what it has room for" number (inexact->exact (round (* 100 full))))))
    (note-taken groups over)
    (page-set-property! page 'lines (append lines (list (fill-mark paper full))))
    (page-set-property! page 'configuration (append bases '(0)))
    page))
#(define (flow-breaking book)
  (let* ((paper (ly:paper-book-paper book)) (mm (ly:output-def-lookup paper 'mm))
         (length-of (lambda (name) (ly:output-def-lookup paper name)))
         (room (- (length-of 'paper-height) (length-of 'top-margin) (length-of 'bottom-margin)))
         (most (* mm flow-give)) (number 0))
    (append-map
      (lambda (run)
        (let ((wide most))
          (map (lambda (groups)
              (let ((over (room-over paper room groups wide)))
                (set! number (+ number 1))
                (if (>= over 0) (set! wide over))
                (flow-page book number paper room groups over)))
            (best-pages paper room run))))
      (flow-runs (fitting paper room (flow-groups (ly:paper-book-systems book)))))))
