      \new DrumVoice { \upper \drummode {
        \bar ".|:" \repeat volta 2 {
        \time 4/4
        snare4 r4 r2 |  % the whole groove, bar 1, upper voice, 0 to 1
        } \alternative { {
        snare4 snare4 r2 | \break  % the whole groove, bar 2, upper voice, 1 to 2
        } {
        snare4 snare4 snare4 r4 |  % the whole groove, bar 3, upper voice, 2 to 3
        snare4 snare4 snare4 snare4 | \break  % the whole groove, bar 4, upper voice, 3 to 4
        } }
        snare4 r4 snare4 r4 |  % the whole groove, bar 5, upper voice, 4 to 5
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        \bar ".|:" \repeat volta 2 {
        s1*1 |  % the whole groove, bar 1, lower voice, 0 to 1
        } \alternative { {
        s1*1 |  % the whole groove, bar 2, lower voice, 1 to 2
        } {
        s1*1 |  % the whole groove, bar 3, lower voice, 2 to 3
        s1*1 |  % the whole groove, bar 4, lower voice, 3 to 4
        } }
        s1*1 |  % the whole groove, bar 5, lower voice, 4 to 5
      } }
