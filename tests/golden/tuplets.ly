      \new DrumVoice { \upper \drummode {
        \time 4/4
        \once \omit TupletBracket \tuplet 3/2 { snare8[ snare8 snare8] } \tuplet 3/2 { snare4 snare8 } \once \omit TupletBracket \tuplet 5/4 { snare16[ snare16 snare16 snare16 snare16] } r4 |  % the whole groove, bar 1, upper voice, 0 to 1
        \once \omit TupletBracket \tuplet 6/4 { snare16[ snare16 snare16 snare16 snare16 snare16] } snare4 \tuplet 3/2 { r8 snare8[ snare8] } snare4 |  % the whole groove, bar 2, upper voice, 1 to 2
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        bassDrum4 r4 r2 |  % the whole groove, bar 1, lower voice, 0 to 1
        bassDrum4 r4 r2 |  % the whole groove, bar 2, lower voice, 1 to 2
      } }
