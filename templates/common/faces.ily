% The faces of the words. The author may name a family for text and one for labels, in a source's text-family and
% label-family: regular, italic, semibold, bold, light. (face 'text-family 1 "Name") is its italic, or the design's own.
#(define (face family n standard)
  (let ((own (module-ref (current-module) family #f))) (if own (list-ref own n) standard)))
% The words for reading have the size that a source's type-scale gives them; those that stand out by their size keep it.
#(define (scaled styles)
  (let ((k (module-ref (current-module) 'type-scale 1)))
    (map (lambda (style)
        (if (< (caddr style) 15) (cons* (car style) (cadr style) (* k (caddr style)) (* k (cadddr style)) (cddddr style)) style))
      styles)))
