% Font files, named one by one; their folders are on the include path. Those that are there already are not read again.
#(define fonts-added '())
#(define (add-font file)
  (if (not (member file fonts-added))
    (begin (ly:font-config-add-font (ly:find-file file)) (set! fonts-added (cons file fonts-added)))))
