      \new DrumVoice { \upper \drummode {
        \time 4/4
        snare4 r4 snare4 r4 |  % the whole groove, bar 1, hands, 0 to 1
        R1*1 | \break  % the whole groove, bar 2, hands, 1 to 2
        s1*1 |  % the whole groove, bar 3, hands, 2 to 3
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        s1*1 |  % the whole groove, bar 1, feet, 0 to 1
        s1*1 |  % the whole groove, bar 2, feet, 1 to 2
        bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 3, feet, 2 to 3
      } }
