      \new DrumVoice { \upper \drummode {
        \time 4/4
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] |  % the whole groove, bar 1, hands, 0 to 1
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] | \break  % the whole groove, bar 2, hands, 1 to 2
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] |  % the whole groove, bar 3, hands, 2 to 3
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] | \break  % the whole groove, bar 4, hands, 3 to 4
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] |  % the whole groove, bar 5, hands, 4 to 5
        snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] snare8[ snare16 snare16] |  % the whole groove, bar 6, hands, 5 to 6
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        s1*1 |  % the whole groove, bar 1, feet, 0 to 1
        s1*1 |  % the whole groove, bar 2, feet, 1 to 2
        s1*1 |  % the whole groove, bar 3, feet, 2 to 3
        s1*1 |  % the whole groove, bar 4, feet, 3 to 4
        s1*1 |  % the whole groove, bar 5, feet, 4 to 5
        s1*1 |  % the whole groove, bar 6, feet, 5 to 6
      } }
