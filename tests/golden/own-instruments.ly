      \new DrumVoice { \upper \drummode {
        \time 4/4
        \ghost snareGhost4 snareGhostX4 snareAccent8[-> snareX8 drumS8 sound8] |  % the whole groove, bar 1, upper voice, 0 to 1
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        s1*1 |  % the whole groove, bar 1, lower voice, 0 to 1
      } }
