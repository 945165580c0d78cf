
% Plays every note with a MIDI key of its own. Stands after a page's source; takes the names and keys of the notes.
#(define sound-keys (make-hash-table))
#(define (sound-pitch key) (ly:make-pitch (- (quotient key 12) 5) 0 (/ (remainder key 12) 2)))
% begins with a capital, which no note's name does
#(set! drumPitchNames (acons 'EndOfSound 'EndOfSound drumPitchNames))
soundKeys = #(define-void-function (rows) (list?)
  (for-each (lambda (row) (hashq-set! sound-keys (car row) (sound-pitch (cdr row)))) rows)
  (hashq-set! sound-keys 'EndOfSound (sound-pitch 127)))
endOfSound = \drummode { EndOfSound4 }
% Grace notes an eighth as long as they are written: LilyPond loses count of time where they reach back past a stroke.
soundOf = #(define-music-function (music) (ly:music?)
  (music-map
    (lambda (one)
      (if (eq? 'GraceMusic (ly:music-property one 'name)) (ly:music-compress (ly:music-property one 'element) 1/8))
      one)
    music))
