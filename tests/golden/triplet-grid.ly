      \new DrumVoice { \upper \drummode {
        \time 4/4
        \tuplet 3/2 { ride4 ride8 } \tuplet 3/2 { ride4 ride8 } \tuplet 3/2 { ride4 ride8 } \tuplet 3/2 { ride4 ride8 } |  % the whole groove, bar 1, upper voice, 0 to 1
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 1, lower voice, 0 to 1
      } }
