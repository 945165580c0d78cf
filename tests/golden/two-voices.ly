      \new DrumVoice { \upper \drummode {
        \time 4/4
        ride8[ ride8] <snareAccent ride>8[-> ride16 \ghost snareGhost16] ride16[ \ghost snareGhost16 ride8] <snareAccent ride>8[-> ride8] |  % the whole groove, bar 1, upper voice, 0 to 1
        \bar "|."
      } }
      \new DrumVoice { \lower \drummode {
        bassDrum4 footHiHat8[ bassDrum8] bassDrum8[ bassDrum8] footHiHat4 |  % the whole groove, bar 1, lower voice, 0 to 1
      } }
