% Page, grid, fonts. Lengths in mm.
#(set-global-staff-size staff-points)

% The folders of the fonts are on the include path. Fonts must be added after the staff size: setting it forgets them.
#(for-each
  (lambda (file) (ly:font-config-add-font (ly:find-file file)))
  '("SourceSansPro-Light.otf" "SourceSansPro-Regular.otf" "SourceSansPro-It.otf" "SourceSansPro-Semibold.otf"
    "SourceSansPro-Bold.otf" "SourceSerifPro-Regular.otf" "SourceSerifPro-It.otf" "SourceSerifPro-Semibold.otf"))

#(define margin-x 16)                        % the margin column: 16 to 38
#(define main-x 44)                          % the main column
#(define main-w (- page-width 60))
#(define right-x (- page-width 16))
#(define head-y 15)                          % base line of the running head
#(define foot-y (- page-height 12))          % base line of the folio
#(define body-y 25)                          % the flow begins here

#(set! paper-alist (cons `("book page" . (cons (* ,page-width mm) (* ,page-height mm))) paper-alist))
\paper {
  #(set-paper-size "book page")
  % 2.25 reads the first two lines, 2.24 the last one; each ignores the other's
  property-defaults.fonts.serif = "Source Serif Pro"
  property-defaults.fonts.sans = "Source Sans Pro"
  #(if (defined? 'make-pango-font-tree)
    (module-define! (current-module) 'fonts
      (make-pango-font-tree "Source Serif Pro" "Source Sans Pro" "Source Sans Pro" (/ staff-height pt 20))))
  indent = 0  tagline = ##f  print-page-number = ##f
  top-margin = #(* mm body-y)  bottom-margin = 18\mm  left-margin = #(* mm main-x)  line-width = #(* mm main-w)
  ragged-bottom = ##t  ragged-last-bottom = ##t  ragged-right = ##f
  oddHeaderMarkup = ##f  evenHeaderMarkup = ##f  oddFooterMarkup = ##f  evenFooterMarkup = ##f
  % blocks bring their own space above, so nothing is added between them
  #(define flush '((basic-distance . 0) (minimum-distance . 0) (padding . 0) (stretchability . 0)))
  top-markup-spacing = #flush
  top-system-spacing = #flush
  last-bottom-spacing = #flush
  markup-markup-spacing = #flush
  markup-system-spacing = #'((basic-distance . 2) (minimum-distance . 0) (padding . 1.9) (stretchability . 0))
  score-markup-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 2.2) (stretchability . 0))
  score-system-spacing = #'((basic-distance . 9) (minimum-distance . 8) (padding . 2.2) (stretchability . 0))
  system-system-spacing = #'((basic-distance . 9) (minimum-distance . 8) (padding . 2.4) (stretchability . 0))
  scoreTitleMarkup = \markup \fromproperty #'header:piece
}
