      \new DrumVoice { \upper \drummode {
        \time 4/4
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] |  % the whole groove, bar 1, upper voice, 0 to 1
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] | \break  % the whole groove, bar 2, upper voice, 1 to 2
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] |  % the whole groove, bar 3, upper voice, 2 to 3
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] | \break  % the whole groove, bar 4, upper voice, 3 to 4
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] |  % the whole groove, bar 5, upper voice, 4 to 5
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] |  % the whole groove, bar 6, upper voice, 5 to 6
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        s1*1 |  % the whole groove, bar 1, lower voice, 0 to 1
        s1*1 |  % the whole groove, bar 2, lower voice, 1 to 2
        s1*1 |  % the whole groove, bar 3, lower voice, 2 to 3
        s1*1 |  % the whole groove, bar 4, lower voice, 3 to 4
        s1*1 |  % the whole groove, bar 5, lower voice, 4 to 5
        s1*1 |  % the whole groove, bar 6, lower voice, 5 to 6
      } }
