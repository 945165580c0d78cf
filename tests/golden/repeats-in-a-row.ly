      \new DrumVoice { \upper \drummode {
        \bar ".|:" \repeat volta 3 {
        \time 4/4
        \sectionLabel "Door \"A\""
        snare4 r4 snare4 r4 |  % the whole groove, bar 1, hands, 0 to 1
        }
        \repeat volta 2 {
        \sectionLabel "Door \\B"
        snare4 r4 snare4 r4 | \break  % the whole groove, bar 2, hands, 1 to 2
        snare4 r4 snare4 r4 |  % the whole groove, bar 3, hands, 2 to 3
        }
      } }
      \new DrumVoice { \lower \drummode {
        \bar ".|:" \repeat volta 3 {
        r4 bassDrum4 r4 bassDrum4 |  % the whole groove, bar 1, feet, 0 to 1
        }
        \repeat volta 2 {
        r4 bassDrum4 r4 bassDrum4 |  % the whole groove, bar 2, feet, 1 to 2
        r4 bassDrum4 r4 bassDrum4 |  % the whole groove, bar 3, feet, 2 to 3
        }
      } }
