      \new DrumVoice { \upper \drummode {
        \bar ".|:" \repeat volta 3 {
        \time 4/4
        \sectionName "Door \"A\""
        snare4 r4 snare4 r4 |  % the whole groove, bar 1, upper voice, 0 to 1
        } \playedTimes "×3"
        \repeat volta 2 {
        \sectionName "Door \\B"
        snare4 r4 snare4 r4 | \break  % the whole groove, bar 2, upper voice, 1 to 2
        snare4 r4 snare4 r4 |  % the whole groove, bar 3, upper voice, 2 to 3
        } \playedTimes "×2"
      } }
      \new DrumVoice { \lower \drummode {
        \bar ".|:" \repeat volta 3 {
        r4 bassDrum4 r4 bassDrum4 |  % the whole groove, bar 1, lower voice, 0 to 1
        }
        \repeat volta 2 {
        r4 bassDrum4 r4 bassDrum4 |  % the whole groove, bar 2, lower voice, 1 to 2
        r4 bassDrum4 r4 bassDrum4 |  % the whole groove, bar 3, lower voice, 2 to 3
        }
      } }
