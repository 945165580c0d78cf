% Page, grid, fonts. Lengths in mm. Margins are even; binding shifts the pages where they are to be mirrored.
#(define margin-x 21)
#(define main-x 21)                          % music and headings begin here, and labels
#(define main-w (- page-width 42))
#(define label-w 42)                         % the label column, gutter included
#(define text-x label-w)                     % the body column
#(define text-w (- main-w label-w))
#(define right-x (- page-width 21))
#(define head-y 15)                          % base line of the running head
#(define card-gap 6.7)                        % between cells of the cell key
#(define foot-y (- page-height 12))          % base line of a folio at the foot
#(define body-y 25)
#(define foot-room 20)                       % under the flow
#(define margin-dx (- margin-x main-x))

#(set! paper-alist (cons `("book page" . (cons (* ,page-width mm) (* ,page-height mm))) paper-alist))
\paper {
  page-breaking = #flow-breaking
  % set-global-staff-size would forget all fonts and read them again
  #(layout-set-staff-size staff-points)
  #(set-paper-size "book page")
  % 2.25 reads the first line, 2.24 the last one; each ignores the other's
  property-defaults.fonts.serif = "TeX Gyre Schola"
  #(if (defined? 'make-pango-font-tree)
    (module-define! (current-module) 'fonts
      (make-pango-font-tree "TeX Gyre Schola" "TeX Gyre Schola" "TeX Gyre Schola" (/ staff-height pt 20))))
  indent = 0  tagline = ##f  print-page-number = ##f
  top-margin = #(* mm body-y)  bottom-margin = #(* mm foot-room)  left-margin = #(* mm main-x)  line-width = #(* mm main-w)
  ragged-right = ##f
  oddHeaderMarkup = ##f  evenHeaderMarkup = ##f  oddFooterMarkup = ##f  evenFooterMarkup = ##f
  markup-markup-spacing = #'((padding . 0))
  markup-system-spacing = #'((padding . 1.2))
  score-markup-spacing = #'((padding . 1.6))
  system-system-spacing = #'((basic-distance . 10) (padding . 1.3))
  scoreTitleMarkup = \markup \fromproperty #'header:piece
}
