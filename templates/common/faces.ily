% The faces of the words. The author may name a family for text and one for labels, in a source's text-family and
% label-family: regular, italic, semibold, bold, light. (face 'text-family 1 "Name") is its italic, or the design's own.
#(define (face family n standard)
  (let ((own (module-ref (current-module) family #f))) (if own (list-ref own n) standard)))
