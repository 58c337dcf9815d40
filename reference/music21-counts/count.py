"""How data.csv was made: music21 10.5.1 counts its own scores.

    python3 count.py FOLDER FILE… > data.csv      FOLDER: the package's; FILE: paths in it
"""

import sys
import warnings
from fractions import Fraction
from pathlib import Path

import music21


def sounding(note):
    """Neither chord symbols nor strokes without a pitch."""
    silent = (music21.harmony.ChordSymbol, music21.note.Unpitched, music21.percussion.PercussionChord)
    return hasattr(note, "pitches") and not isinstance(note, silent)


def counts(path):
    score = music21.converter.parse(path, forceSource=True)
    notes = grace = tie_ends = 0
    onsets = set()
    for part in score.parts:
        for bar, measure in enumerate(part.getElementsByClass("Measure")):
            for note in filter(sounding, measure.flatten().notes):
                heads = note.notes if note.isChord else [note]
                notes += len(heads)
                grace += len(heads) if note.duration.isGrace else 0
                tie_ends += sum(head.tie is not None and head.tie.type in ("stop", "continue") for head in heads)
                onsets.add((bar, round(float(note.offset), 5)))
    bars = max(len(part.getElementsByClass("Measure")) for part in score.parts)
    end = Fraction(score.highestTime).limit_denominator(10000)
    return notes, len(onsets), bars, grace, tie_ends, end


def main(folder, files):
    warnings.simplefilter("ignore")
    print("file,notes,onsets,bars,grace,tie_ends,end")
    for file in files:
        *row, end = counts(Path(folder) / file)
        # between parts of several voices music21 lets bars drift apart: the end is kept for the suite only
        print(file, *row, end if file.startswith("musicxml/") else "", sep=",")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
