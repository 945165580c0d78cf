% Okabe-Ito palette for cells (Okabe and Ito, Color Universal Design, 2008); one accent; four greys.
% Colour never speaks alone: the letter, and solid or hollow, say the same.
#(define (hex s)
  (apply rgb-color (map (lambda (i) (/ (string->number (substring s i (+ i 2)) 16) 255.0)) '(0 2 4))))
#(define (tone colour grey) (if colours? (hex colour) (hex grey)))
#(define ink     (hex "1C1C1E"))
#(define soft    (hex "5C5C61"))
#(define rule    (hex "B4B4B8"))
#(define panel   (hex "EDECE9"))
#(define panel-2 (hex "DEDDD9"))
#(define paper   (hex "FFFFFF"))
#(define accent  (tone "8C1D40" "1C1C1E"))
#(define tint    (tone "DDBBC6" "C8C8CC"))
#(define change  (tone "CFE8DF" "DEDDD9"))
#(define changed-ink (tone "00684C" "1C1C1E"))
#(define left-over (hex "77777C"))
% fill, letter on it when solid, letter beside it when hollow
#(define cell-colours
  (list (list (tone "0072B2" "444448") paper (tone "0072B2" "1C1C1E"))       ; blue
        (list (tone "E69F00" "B9B9BD") ink   (tone "8A5F00" "1C1C1E"))       ; orange
        (list (tone "009E73" "77777C") paper (tone "00684C" "1C1C1E"))       ; bluish green
        (list (tone "D55E00" "606064") paper (tone "A84A00" "1C1C1E"))       ; vermilion
        (list (tone "CC79A7" "A0A0A4") ink   (tone "8F3E6C" "1C1C1E"))       ; reddish purple
        (list (tone "56B4E9" "C6C6CA") ink   (tone "1F6E9C" "1C1C1E"))))     % sky blue
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
          (else (list (car colours) (caddr colours) #f)))))
