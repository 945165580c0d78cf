      \new DrumVoice { \upper \drummode {
        \time 4/4
        snare4 r4 snare4 r4 |  % the whole groove, bar 1, upper voice, 0 to 1
        R1*1 | \break  % the whole groove, bar 2, upper voice, 1 to 2
        s1*1 |  % the whole groove, bar 3, upper voice, 2 to 3
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        s1*1 |  % the whole groove, bar 1, lower voice, 0 to 1
        s1*1 |  % the whole groove, bar 2, lower voice, 1 to 2
        bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 3, lower voice, 2 to 3
      } }
