      \new DrumVoice { \upper \drummode {
        \time 4/4
        \partial 1*1/4
        \ghost snareGhost8[ snareAccent8]-> |  % the whole groove, bar 0, hands, 0 to 1/4
        r4 snare4 r4 snare4 |  % the whole groove, bar 1, hands, 1/4 to 5/4
        r4 snare4 r4 snare4 |  % the whole groove, bar 2, hands, 5/4 to 9/4
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        s1*1/4 |  % the whole groove, bar 0, feet, 0 to 1/4
        bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 1, feet, 1/4 to 5/4
        bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 2, feet, 5/4 to 9/4
      } }
