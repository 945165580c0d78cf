% Colour, and the look of a cell: a design's colours.ily says what the colours are.
#(define (hex s)
  (apply rgb-color (map (lambda (i) (/ (string->number (substring s i (+ i 2)) 16) 255.0)) '(0 2 4))))
#(define (tone colour grey) (if colours? (hex colour) (hex grey)))
% the looks of another chapter's cells, for one markup
#(define-markup-command (with-looks layout props looks m) (list? markup?)
  (let ((before cell-looks))
    (set! cell-looks looks)
    (let ((s (interpret-markup layout props m))) (set! cell-looks before) s)))
% (colour letter-colour solid?); a changed form of another cell is hollow
#(define (cell-look letter)
  (let* ((row (assoc letter cell-looks))
         (colours (if row (list-ref cell-colours (modulo (cadr row) 6)) #f)))
    (cond ((not colours) (list left-over soft #f))
          ((caddr row) (list (car colours) (cadr colours) #t))
          ; without colours a pale frame would hardly be seen
          (else (list (if colours? (car colours) (caddr colours)) (caddr colours) #f)))))
