% Page, grid, fonts. Lengths in mm.
#(for-each add-font
  '("SourceSansPro-Light.otf" "SourceSansPro-Regular.otf" "SourceSansPro-It.otf" "SourceSansPro-Semibold.otf"
    "SourceSansPro-Bold.otf" "SourceSerifPro-Regular.otf" "SourceSerifPro-It.otf" "SourceSerifPro-Semibold.otf"))

#(define margin-x 16)                        % the margin column: 16 to 38
#(define main-x 44)                          % the main column
#(define main-w (- page-width 60))
#(define right-x (- page-width 16))
#(define head-y 15)                          % base line of the running head
#(define card-gap 6)                        % between cells of the cell key
#(define foot-y (- page-height 12))          % base line of the folio
#(define body-y 25)                          % the flow begins here
#(define margin-dx (- margin-x main-x))
#(define foot-room 18)                       % under the flow
#(define text-w main-w)

#(set! paper-alist (cons `("book page" . (cons (* ,page-width mm) (* ,page-height mm))) paper-alist))
\paper {
  page-breaking = #flow-breaking
  % set-global-staff-size would forget all fonts and read them again
  #(layout-set-staff-size staff-points)
  #(set-paper-size "book page")
  % 2.25 reads the first two lines, 2.24 the last one; each ignores the other's
  property-defaults.fonts.serif = "Source Serif Pro"
  property-defaults.fonts.sans = "Source Sans Pro"
  #(if (defined? 'make-pango-font-tree)
    (module-define! (current-module) 'fonts
      (make-pango-font-tree "Source Serif Pro" "Source Sans Pro" "Source Sans Pro" (/ staff-height pt 20))))
  indent = 0  tagline = ##f  print-page-number = ##f
  top-margin = #(* mm body-y)  bottom-margin = #(* mm foot-room)  left-margin = #(* mm main-x)  line-width = #(* mm main-w)
  ragged-right = ##f
  oddHeaderMarkup = ##f  evenHeaderMarkup = ##f  oddFooterMarkup = ##f  evenFooterMarkup = ##f
  % edges of neighbours keep the padding, staves of one passage also the basic distance; blocks bring their own space
  markup-markup-spacing = #'((padding . 0))
  markup-system-spacing = #'((padding . 1.2))
  score-markup-spacing = #'((padding . 1.6))
  system-system-spacing = #'((basic-distance . 9) (padding . 1.0))
  scoreTitleMarkup = \markup \fromproperty #'header:piece
}
