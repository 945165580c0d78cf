% Okabe-Ito palette for cells (Okabe and Ito, Color Universal Design, 2008); one accent; four greys.
% Colour never speaks alone: the letter, and solid or hollow, say the same.
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
% of a cross-rhythm: the cells, and the beats
#(define (pulse-tone) (car (cell-look "A")))
#(define (beat-tone) accent)
