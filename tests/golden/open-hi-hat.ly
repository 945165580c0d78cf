      \new DrumVoice { \upper \drummode {
        \time 4/4
        hiHat8[ hiHat8 hiHat8 openHiHat8] hiHat8[ hiHat8 hiHat8 openHiHatAccent8]-> |  % the whole groove, bar 1, upper voice, 0 to 1
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        r2 footHiHat4 r4 |  % the whole groove, bar 1, lower voice, 0 to 1
      } }
