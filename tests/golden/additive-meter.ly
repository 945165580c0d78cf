      \new DrumVoice { \upper \drummode {
        \compoundMeter #'((2 2 3 8))
        ride4 ride4 ride4. |  % the whole groove, bar 1, upper voice, 0 to 7/8
        \time 3/4
        ride4 ride4 ride4 |  % the whole groove, bar 2, upper voice, 7/8 to 13/8
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        bassDrum4 r4 bassDrum4. |  % the whole groove, bar 1, lower voice, 0 to 7/8
        bassDrum4 r8 bassDrum8 r4 |  % the whole groove, bar 2, lower voice, 7/8 to 13/8
      } }
