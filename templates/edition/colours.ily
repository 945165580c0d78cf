% One accent, three greys, and the Okabe-Ito palette for cells (Okabe and Ito, Color Universal Design, 2008), which line
% and filling tell apart as well.
#(define ink     (hex "1A1A1A"))
#(define soft    (hex "6A6A6A"))
#(define rule    (hex "B4B4B4"))
#(define panel   (hex "ECECEC"))
#(define panel-2 (hex "ECECEC"))
#(define paper   (hex "FFFFFF"))
#(define accent  (tone "7A1F2E" "1A1A1A"))
#(define tint    (tone "D9B8BD" "C8C8C8"))
#(define change  (hex "ECECEC"))
#(define changed-ink (tone "7A1F2E" "1A1A1A"))
#(define left-over ink)
% line, letter on a tint, letter; the tints stand below
#(define (cell-tone colour) (let ((c (tone colour "1A1A1A"))) (list c c c)))
#(define cell-colours (map cell-tone '("0072B2" "D55E00" "009E73" "CC79A7" "56B4E9" "E69F00")))
#(define cell-tints (map (lambda (colour) (tone colour "E2E2E2")) '("D6E8F3" "F7DCC9" "D3ECE4" "F3DFEA" "DDF0FA" "FAEBCB")))
% of a cross-rhythm: the cells, and the beats; no colour of a letter
#(define (pulse-tone) accent)
#(define (beat-tone) ink)
