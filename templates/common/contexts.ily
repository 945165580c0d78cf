% How staves, voices and rows are set. Read with every source: faces, colours and sizes are settings.
\layout {
  \context { \Lyrics
    \without #'(Extender Instrument_name)
    \override LyricText.stencil = #centred-lyric
    \override LyricText.X-offset = #0
    % words never widen the music
    \override LyricText.X-extent = #'(0 . 1)
    \override StanzaNumber.font-name = #sans \override StanzaNumber.font-size = #-2.4
    \override StanzaNumber.color = #soft \override StanzaNumber.padding = #1.4
    \override LyricText.font-name = #sans-sb \override LyricText.font-size = #-1.6
    \override VerticalAxisGroup.nonstaff-relatedstaff-spacing = #'((basic-distance . 6.4) (minimum-distance . 6.4) (padding . 0.9) (stretchability . 0))
    \override VerticalAxisGroup.nonstaff-nonstaff-spacing = #'((basic-distance . 2.6) (minimum-distance . 2.6) (padding . 0.2)) }
  \context { \Score
    \without #'(Bar_number Centered_bar_number_align Concurrent_hairpin Footnote Jump Show_control_points Stanza_number_align)
    \override SectionLabel.font-name = #sans-sb \override SectionLabel.font-size = #-1
    \override SectionLabel.padding = #1.6 \override SectionLabel.outside-staff-horizontal-padding = #2.4
    \override MetronomeMark.font-name = #sans-sb \override MetronomeMark.font-size = #-1
    \override MetronomeMark.padding = #1.2
    scriptDefinitions = #(nearest-signs default-script-alist)
    \override SpacingSpanner.uniform-stretching = ##t
    \override TimeSignature.style = #'numbered
    % lines break where the source says so and nowhere else
    \override NonMusicalPaperColumn.line-break-permission = ##f
    % and no page ends in the middle of a passage, but at \mayTurn
    \override NonMusicalPaperColumn.page-break-permission = ##f }
  \context { \DrumStaff
    \without #'(Alteration_glyph Caesura Cue_clef Figured_bass Figured_bass_position Fingering_column Instrument_name
      Merge_mmrest_numbers Non_musical_script_column Piano_pedal_align Script_row Staff_highlight)
    drumStyleTable = #kit-style drumPitchTable = #(alist->hash-table midiDrumPitches)
    \numericTimeSignature
    \consists Merge_rests_engraver
    \override StaffSymbol.thickness = #1.15
    \override StaffSymbol.stencil = #marked-staff
    \override BarLine.hair-thickness = #1.4
    % keeps the last note off the bar line, which proportional spacing forgets
    \override BarLine.extra-spacing-width = #'(-1.0 . 0.3) }
  \context { \DrumVoice
    \without #'(Auto_beam Grace_auto_beam Bend Breathing_sign Chord_tremolo Dynamic Dynamic_align Finger_glide Forbid_line_break
      Instrument_switch Laissez_vibrer Part_combine Phrasing_slur Pitched_trill Repeat_tie Slash_repeat Slur Text_spanner Tie
      Trill_spanner)
    % LilyPond adds this to the size of the head, which "both" makes smaller
    \override Parentheses.font-size = #(if (eq? ghost-look 'both) 1.5 -1.5) \override Parentheses.padding = #0.12
    \override Script.outside-staff-priority = ##f \override Script.padding = #0.35
    \override Stem.before-line-breaking = #fit-stem
    \override StemTremolo.Y-offset = #roll-place
    \override StemTremolo.shape = #'beam-like \override StemTremolo.slope = #0.3
    \override TupletNumber.font-name = #sans-i
    \override TupletBracket.positions = #tuplet-places
    \override Beam.damping = #+inf.0 \override Beam.positions = #beam-places
    \override Rest.font-size = #-0.5 }
  \context { \Dynamics \name Cells \alias Dynamics
    \without #'(Dynamic Dynamic_align Piano_pedal Script Text Text_spanner)
    \consists #ribbon-engraver
    \override TextSpanner.stencil = #ribbon-stencil \override TextSpanner.font-shape = #'upright
    \override TextSpanner.direction = #UP \override TextSpanner.outside-staff-priority = ##f
    \override VerticalAxisGroup.staff-affinity = #DOWN
    \override VerticalAxisGroup.nonstaff-relatedstaff-spacing = #'((basic-distance . 7.4) (minimum-distance . 7.4) (padding . 0.6) (stretchability . 0)) }
  \context { \Score \accepts Cells }
}
