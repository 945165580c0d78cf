      \new DrumVoice { \upper \drummode {
        \time 4/4
        \slashedGrace { snareGrace8 } snareAccentFlam4-> r4 snare4 r4 |  % the whole groove, bar 1, upper voice, 0 to 1
        \grace { snareGrace16[ snareGrace16] } snareAccentDrag4-> r4 \grace { snareGrace16[ snareGrace16 snareGrace16] } snareAccentRuff4-> r4 |  % the whole groove, bar 2, upper voice, 1 to 2
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        \grace s8 bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 1, lower voice, 0 to 1
        \grace s8 bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 2, lower voice, 1 to 2
      } }
