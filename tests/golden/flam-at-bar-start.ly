      \new DrumVoice { \upper \drummode {
        \time 4/4
        \slashedGrace { snareGrace8 } snareAccentFlam4-> r4 snare4 r4 |  % the whole groove, bar 1, hands, 0 to 1
        \grace { snareGrace16[ snareGrace16] } snareAccentDrag4-> r4 \grace { snareGrace16[ snareGrace16 snareGrace16] } snareAccentRuff4-> r4 |  % the whole groove, bar 2, hands, 1 to 2
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        \grace s8 bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 1, feet, 0 to 1
        \grace s8 bassDrum4 r4 bassDrum4 r4 |  % the whole groove, bar 2, feet, 1 to 2
      } }
