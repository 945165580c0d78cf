      \new DrumVoice { \upper \drummode {
        \bar ".|:" \repeat volta 2 {
        \time 4/4
        snare4 r4 r2 |  % the whole groove, bar 1, hands, 0 to 1
        } \alternative { {
        snare4 snare4 r2 | \break  % the whole groove, bar 2, hands, 1 to 2
        } {
        snare4 snare4 snare4 r4 |  % the whole groove, bar 3, hands, 2 to 3
        snare4 snare4 snare4 snare4 | \break  % the whole groove, bar 4, hands, 3 to 4
        } }
        snare4 r4 snare4 r4 |  % the whole groove, bar 5, hands, 4 to 5
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        \bar ".|:" \repeat volta 2 {
        s1*1 |  % the whole groove, bar 1, feet, 0 to 1
        } \alternative { {
        s1*1 |  % the whole groove, bar 2, feet, 1 to 2
        } {
        s1*1 |  % the whole groove, bar 3, feet, 2 to 3
        s1*1 |  % the whole groove, bar 4, feet, 3 to 4
        } }
        s1*1 |  % the whole groove, bar 5, feet, 4 to 5
      } }
