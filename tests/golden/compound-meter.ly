      \new DrumVoice { \upper \drummode {
        \time 12/8
        ride4 ride8 <snare ride>4 ride8 ride4 ride8 <snare ride>4 ride8 |  % the whole groove, bar 1, upper voice, 0 to 3/2
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        bassDrum4. r4. bassDrum4. r8 bassDrum4 |  % the whole groove, bar 1, lower voice, 0 to 3/2
      } }
