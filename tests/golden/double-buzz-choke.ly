      \new DrumVoice { \upper \drummode {
        \time 4/4
        snareDouble8:16 r8 r8 snareDouble8:16 \buzz snareBuzz8:16 r8 crashAccentChoke4->-\choke |  % the whole groove, bar 1, upper voice, 0 to 1
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 1, lower voice, 0 to 1
      } }
