      \new DrumVoice { \upper \drummode {
        \time 4/4
        \partial 1*1/4
        \ghost snareGhost8[ snareAccent8]-> |  % the whole groove, bar 0, upper voice, 0 to 1/4
        r4 snare4 r4 snare4 |  % the whole groove, bar 1, upper voice, 1/4 to 5/4
        r4 snare4 r4 snare4 |  % the whole groove, bar 2, upper voice, 5/4 to 9/4
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        s1*1/4 |  % the whole groove, bar 0, lower voice, 0 to 1/4
        bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 1, lower voice, 1/4 to 5/4
        bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 2, lower voice, 5/4 to 9/4
      } }
