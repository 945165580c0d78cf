      \new DrumVoice { \upper \drummode {
        \time 4/4
        hiHat8[ hiHat8 hiHat8 openHiHat8] hiHat8[ hiHat8 hiHat8 openHiHatAccent8]-> |  % the whole groove, bar 1, hands, 0 to 1
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        r2 footHiHat4 r4 |  % the whole groove, bar 1, feet, 0 to 1
      } }
