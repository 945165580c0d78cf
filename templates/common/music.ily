% Music is written out: there is nothing in it to be looked for and replaced before it is set, but lengths are told once.
#(define (tell-length music)
  (ly:music-set-property! music 'length (ly:music-length music))
  music)
#(set! toplevel-music-functions (list (lambda (music) (music-map tell-length music))))

% Kit and staff. A source names the notes that it uses, and no others, with \kit.
#(define heads '(("normal" . ()) ("x" . cross) ("diamond" . harmonic-black) ("triangle" . do) ("slash" . slash) ("circle x" . xcircle)))
#(define signs '(("" . #f) ("open" . open) ("half open" . halfopen) ("closed" . stopped)))
#(define kit-style (make-hash-table))
#(define (key->pitch key)
  (ly:make-pitch (- (quotient key 12) 5) (vector-ref #(0 0 1 1 2 3 3 4 4 5 5 6) (remainder key 12))
                 (vector-ref #(0 1/2 0 1/2 0 0 1/2 0 1/2 0 1/2 0) (remainder key 12))))
% One row a note name: name, head, sign, staff position, MIDI key.
#(define (define-note name head sign position key)
  (let ((type (string->symbol name)))
    (set! drumPitchNames (cons (cons type type) drumPitchNames))
    (set! midiDrumPitches (cons (cons type (key->pitch key)) midiDrumPitches))
    (hashq-set! kit-style type (list (assoc-ref heads head) (assoc-ref signs sign) position))))
kit = #(define-void-function (rows) (list?) (for-each (lambda (row) (apply define-note row)) rows))

% A ghost note, alone or in a chord. LilyPond's spacing does not see parentheses: it is told how far they reach from the
% head, so that neighbours stand apart as far as they have to, and the other notes of their line give a little; but not in
% a score whose bars would not fit on a line then.
#(define (ghost-reach head) (if (ly:output-def-lookup (ly:grob-layout head) 'ghosts-close #f) '(0 . 0) '(-0.62 . 0.62)))
ghost = #(define-music-function (note) (ly:music?)
  (case ghost-look
    ((small) #{ \tweak font-size #-3 #note #})
    ((both) #{ \parenthesize \tweak extra-spacing-width #ghost-reach \tweak font-size #-3 #note #})
    (else #{ \parenthesize \tweak extra-spacing-width #ghost-reach #note #})))
% The stroke that makes the difference, in the cell key.
fresh = #(define-music-function (note) (ly:music?) #{ \tweak color #accent #note #})
% A roll without measure: z on the stem.
#(define (buzz-stencil grob)
  (grob-interpret-markup grob #{ \markup \center-align \vcenter \override #`(font-name . ,sans-b) \abs-fontsize #9 "z" #}))
% A roll's sign stands in the middle of the free stem, between the nearest head and the innermost beam or the flag.
#(define beam-step 0.8)
#(define flag-height 3.1)
#(define (stem-array stem name)
  (let ((array (ly:grob-object stem name #f))) (if (ly:grob-array? array) (ly:grob-array->list array) '())))
#(define (stem-beams stem)
  (let ((beaming (ly:grob-property stem 'beaming '())) (count (lambda (side) (if (list? side) (length side) 0))))
    (if (pair? beaming) (max (count (car beaming)) (count (cdr beaming))) 0)))
#(define (stem-taken stem)
  (cond ((ly:grob? (ly:grob-object stem 'beam #f)) (+ 0.24 (* beam-step (max 0 (1- (stem-beams stem))))))
        ((> (ly:grob-property stem 'duration-log 2) 2) flag-height)
        (else 0.3)))
#(define (roll-place grob)
  (let* ((stem (ly:grob-object grob 'stem)) (dir (ly:grob-property stem 'direction))
         (head (+ (apply (if (= dir UP) max min) (map head-place (stem-array stem 'note-heads))) (* dir 0.5)))
         (end (- ((if (= dir UP) cdr car) (ly:grob-extent stem stem Y)) (* dir (stem-taken stem)))))
    (or (roll-within stem dir) (/ (+ head end) 2))))
% Where one drum of a chord is rolled, its sign stands on the stem between its own head and the next, if there is room: on
% the free stem it would be said of all heads.
#(define room-for-roll 2)
#(define (head-place head) (/ (ly:grob-staff-position head) 2))
#(define (roll-within stem dir)
  (let* ((farther? (lambda (a b) (> (* dir a) (* dir b)))) (heads (stem-array stem 'note-heads))
         (rolled (filter (lambda (head) (ly:assoc-get 'rolled (ly:grob-property head 'details '()) #f)) heads))
         (own (and (pair? rolled) (apply (if (= dir UP) max min) (map head-place rolled))))
         (beyond (if own (filter (lambda (place) (farther? place own)) (map head-place heads)) '()))
         (next (and (pair? beyond) (apply (if (= dir UP) min max) beyond))))
    (and next (>= (abs (- next own)) room-for-roll) (/ (+ own next) 2))))
rolled = #(define-music-function (note) (ly:music?) #{ \tweak details #'((rolled . #t)) #note #})
% Longer stems where a sign stands on them, where a flag would hang into the parenthesis of a ghost note or onto the dot of
% a head in a space, and where a tall rest stands under the beam.
#(define (stem-length-for stem lengths beamed free)
  (ly:grob-set-nested-property! stem '(details lengths) lengths)
  (if beamed (ly:grob-set-nested-property! stem '(details beamed-lengths) beamed))
  (if free (begin
    (ly:grob-set-nested-property! stem '(details beamed-minimum-free-lengths) free)
    (ly:grob-set-nested-property! stem '(details beamed-extreme-minimum-free-lengths) free))))
#(define (over-tall-rest? stem)
  (let ((beam (ly:grob-object stem 'beam #f)))
    (and (ly:grob? beam)
      (any (lambda (rest) (> (ly:grob-property rest 'duration-log) (if (> (stem-beams stem) 2) 3 4)))
        (append-map (lambda (one) (stem-array one 'rests)) (stem-array beam 'stems))))))
#(define (flag-over-dot? stem)
  (and (not (ly:grob? (ly:grob-object stem 'beam #f))) (= UP (ly:grob-property stem 'direction))
    (any (lambda (head) (ly:grob? (ly:grob-object head 'dot #f))) (stem-array stem 'note-heads))))
#(define (fit-stem stem)
  (cond ((ly:grob? (ly:grob-object stem 'tremolo-flag #f))
         (stem-length-for stem '(3.5 5.4 5.8 6.4 7.0) '(4.6 4.6 4.8) '(3.0 2.6 2.4)))
        ((any (lambda (head) (eq? #t (ly:grob-property head 'parenthesized #f))) (stem-array stem 'note-heads)) (stem-length-for stem '(3.5 4.3 4.8 5.4 6.0) #f #f))
        ((flag-over-dot? stem) (stem-length-for stem '(3.5 4.0 4.0 4.25 5.0 6.0) #f #f))
        ((over-tall-rest? stem) (stem-length-for stem '(3.5) '(4.6 4.6 4.6) '(3.2 2.8 2.4)))))
% Beams are level. Clear of the staff, where no line disturbs them, they stand where their stems are best. LilyPond's own
% search (beam-quanting.cc) weighs hundreds of slopes to end at the same place; it is asked where a beam comes nearer.
% Its rules: a beam hangs from a line of the grid of the staff, sits on it, lies over it or between two; a stem shorter than
% is good counts half as much again as one that is longer; none is shorter than it may be. All lengths run from the heads.
% It is asked too where a grace note stands among the notes of a beam.
#(define clear-of-staff 2.6)
#(define (beam-cost place ends)
  (fold (lambda (end cost) (+ cost (if (< place end) (* 1.5 (- end place)) (- place end)))) 0 ends))
#(define (level-place beam dir stems)
  (let* ((infos (map (lambda (stem) (ly:grob-property stem 'stem-info)) stems))
         (ends (sort (map (lambda (info) (* dir (first info))) infos) <))
         (least (apply max (map (lambda (info) (* dir (second info))) infos)))
         (best (max least (list-ref ends (floor (* 3/5 (length ends))))))
         (line (floor best)) (sit (/ (- (ly:grob-property beam 'beam-thickness) (ly:staff-symbol-line-thickness beam)) 2))
         (places (map (lambda (step) (+ line step)) (list 0 sit 0.5 (- 1 sit) 1)))
         (over (find (lambda (place) (>= place best)) places))
         (under (find (lambda (place) (<= least place best)) (reverse places))))
    (if (and under (< (beam-cost under ends) (beam-cost over ends))) under over)))
#(define (graces-within? beam dir)
  (any (lambda (grob) (eqv? dir (ly:grob-property grob 'direction #f))) (stem-array beam 'covered-grobs)))
#(define (beam-places beam)
  (let* ((dir (ly:grob-property beam 'direction)) (stems (stem-array beam 'normal-stems)) (place (level-place beam dir stems)))
    (if (and (>= (- place (* beam-step (1- (apply max (map stem-beams stems))))) clear-of-staff)
             (not (graces-within? beam dir)))
      (cons (* dir place) (* dir place))
      (beam::place-broken-parts-individually beam))))
% Brackets and numbers of tuplets are level, and all over one line as high as the highest, but for one far above.
#(define tuplets-apart 2.5)
#(define (own-tuplet-place bracket)
  (let ((places (ly:tuplet-bracket::calc-positions bracket)) (dir (ly:grob-property bracket 'direction)))
    (if (= dir UP) (max (car places) (cdr places)) (min (car places) (cdr places)))))
#(define (tuplet-places bracket)
  (let* ((dir (ly:grob-property bracket 'direction)) (own (own-tuplet-place bracket)) (system (ly:grob-system bracket))
         (others (filter (lambda (grob) (and (eq? 'TupletBracket (grob::name grob)) (= dir (ly:grob-property grob 'direction))))
                   (stem-array system 'all-elements)))
         (near (filter (lambda (place) (<= (* dir (- place own)) tuplets-apart)) (map own-tuplet-place others)))
         (place (apply (if (= dir UP) max min) own near)))
    (cons place place)))
buzz = { \once \override StemTremolo.stencil = #buzz-stencil }
choke = #(make-music 'TextScriptEvent 'text #{ \markup \fontsize #-1 \musicglyph "scripts.rcomma" #} 'direction UP)

% Signs of an instrument (open, closed ...) stand nearest to it, so that an accent above is read with the whole note.
#(define (nearest-signs definitions)
  (map (lambda (row) (if (memq (car row) '(open halfopen stopped)) (cons (car row) (acons 'script-priority -50 (cdr row))) row))
    definitions))

% A page may end here. (An override comes too late: the column is there already.)
mayTurn = { \overrideProperty Score.NonMusicalPaperColumn.page-break-permission #'allow }

% Only the first beam goes on to the next note.
partedRight = \set stemRightBeamCount = #1
partedLeft = \set stemLeftBeamCount = #1
% A head in the colour of its cell.
inCell = #(define-music-function (name note) (string? ly:music?)
  (let ((look (cell-look name))) #{ \tweak color #(if (caddr look) (car look) (cadr look)) #note #}))
% The name of a section; one of a letter or two is framed.
sectionName = #(define-music-function (name) (string?)
  #{ \sectionLabel #(if (< (string-length name) 3) (markup #:box #:pad-markup 0.25 name) name) #})
% How often what stands between the repeat signs is played, over the second of them.
playedTimes = #(define-music-function (count) (string?)
  #{ \once \override Score.TextMark.font-name = #sans-b \once \override Score.TextMark.font-size = #-1 \textEndMark #count #})
% Over the first time signature, from (log dots words swung told): the note of the beat (log #f: none) and its words,
% then two notes of 1/swung and the triplet that they are played as (0: none), or words that say so.
#(define-markup-command (tempo-mark layout props mark) (list?)
  (let* ((log (first mark)) (words (third mark)) (swung (fourth mark)) (told (fifth mark))
         (tempo (filter identity (list
           (and log (markup #:override '(font-name . #f) #:fontsize -2 #:note (ly:make-duration log (second mark)) UP))
           (and (not (string-null? words)) words))))
         (feel (cond ((> swung 0) (list (make-swung-notes-markup swung))) ((string-null? told) '()) (else (list told))))
         (line (lambda (space parts) (interpret-markup layout (cons (list (cons 'word-space space)) props) (make-line-markup parts)))))
    (cond ((null? tempo) (line 0.6 feel))
          ((null? feel) (line 0.6 tempo))
          (else (line 2.4 (cons (make-override-markup '(word-space . 0.6) (make-line-markup tempo)) feel))))))
#(define-markup-command (swung-notes layout props base) (number?)
  (let* ((short (ly:make-duration (ly:intlog2 base))) (long (ly:make-duration (- (ly:intlog2 base) 1)))
         (hit (lambda (duration . marks) (make-music 'NoteEvent 'duration duration 'articulations marks)))
         (beamed (lambda (dir) (make-music 'BeamEvent 'span-direction dir)))
         (even (make-sequential-music (list (hit short (beamed START)) (hit short (beamed STOP)))))
         (triplet #{ \tuplet 3/2 { #(hit long) #(hit short) } #}))
    (interpret-markup layout (cons '((word-space . 0.8)) props)
      #{ \markup \line { \override #'(font-name . #f) \fontsize #-2 \rhythm #even "=" \override #'(font-name . #f) \fontsize #-2 \rhythm #triplet } #})))
% For a \context of a layout: engravers for which drum music has nothing to do. Pages are the same without them.
without = #(define-scheme-function (names) (symbol-list?)
  (ly:make-context-mod (map (lambda (name) (list 'remove (symbol-append name '_engraver))) names)))
% For a \context of a layout: "lines" numbers the first bar of each line but the first, "all" every bar.
numberedBars = #(define-scheme-function (which) (symbol?)
  #{ \with { \consists Bar_number_engraver
      \override BarNumber.font-name = #sans \override BarNumber.font-size = #-2.5 \override BarNumber.color = #soft
      \override BarNumber.padding = #0.8
      \override BarNumber.break-visibility = #(if (eq? which 'all) end-of-line-invisible begin-of-line-visible)
      barNumberVisibility = #(if (eq? which 'all) all-bar-numbers-visible first-bar-number-invisible) } #})

% Rests stand away from the other voice, farther where one of its heads at that moment would touch them; a tall one reaches
% less far to where its beam may be. Those of both voices have been merged before and have their place.
#(define (heads-beside rest)
  (let* ((column (ly:grob-parent rest X)) (collision (ly:grob-object column 'rest-collision)))
    (if (ly:grob? collision)
      (append-map (lambda (one) (let ((heads (ly:grob-object one 'note-heads)))
                                  (if (ly:grob-array? heads) (ly:grob-array->list heads) '())))
        (delete column (ly:grob-array->list (ly:grob-object collision 'elements))))
      '())))
#(define (clear-of-heads place rest)
  (let ((room (if (> (ly:grob-property rest 'duration-log) 2) 3 4)) (away (if (negative? place) min max)))
    (apply away place
      (map (lambda (head) (+ (ly:grob-property head 'staff-position) (if (negative? place) (- room) room)))
        (heads-beside rest)))))
#(define ((place-rest usual tall) rest)
  (if (null? (ly:grob-property rest 'staff-position))
    (let ((place (if (> (ly:grob-property rest 'duration-log) 4) tall usual)))
      (ly:grob-set-property! rest 'staff-position (if (zero? place) 0 (clear-of-heads place rest))))))
upper = { \voiceOne \override Rest.before-line-breaking = #(place-rest 3 2) \override MultiMeasureRest.staff-position = #0 }
% the only voice: stems up, rests in the middle
single = { \upper \override Rest.before-line-breaking = #(place-rest 0 0) }
lower = { \voiceTwo \override Rest.before-line-breaking = #(place-rest -5 -4) \override MultiMeasureRest.staff-position = #-4
  % the sign for a repeated bar is printed once, by the upper voice
  \omit PercentRepeat }

#(define (centred-lyric grob)
  (ly:stencil-translate-axis (ly:stencil-aligned-to (lyric-text::print grob) X CENTER) 0.65 X))
#(define (ticked-lyric grob)
  (let ((t (ly:stencil-aligned-to (lyric-text::print grob) X CENTER)))
    (ly:stencil-translate-axis (ly:stencil-add t (make-line-stencil 0.16 0 1.55 0 2.5)) 0.65 X)))
% Every line of a named score is a place that binding reads, as large as its staff: what it describes to who cannot see it.
#(define (marked-staff grob)
  (let* ((staff (ly:staff-symbol::print grob)) (score (ly:assoc-get 'score (ly:grob-property grob 'details) #f))
         (x (ly:stencil-extent staff X)) (y (ly:stencil-extent staff Y)))
    (if score
        (ly:stencil-add (spot 1 (string-append "engraver:score/" score) (car x) (car y) (cdr x) (cdr y)) staff)
        staff)))
