#!/usr/bin/env python3
"""Times music21 on the scores that `bench sounds` wrote: reading.py SCORES TABLE RUNS

Each run reads the file anew, without the library's cache, and only reads it. Writes TABLE, a line a file: name, version
and settings, note heads, seconds on the processor of each run; where it cannot be run, the reason instead.
"""
import pathlib
import sys
import time

ABOUT = "BSD-3-Clause; converter.parseFile, its cache neither read nor written"


def heads(score):
    """Every written note head, the members of chords one by one, ends of ties and grace notes too."""
    return sum(len(sounding.pitches) for sounding in score.recurse().notes)


def main(scores, table, runs):
    rows = []
    for path in sorted(pathlib.Path(scores).glob("*.musicxml")):
        try:
            import music21

            times = []
            for _ in range(runs):
                start = time.process_time()
                score = music21.converter.parseFile(path, forceSource=True, storePickle=False)
                times.append(time.process_time() - start)
            row = [path.name, f"music21 {music21.__version__}, {ABOUT}", heads(score), *times]
        except Exception as error:  # whatever it is, it is the reason
            row = [path.name, f"not run: {str(error).splitlines()[0] if str(error) else type(error).__name__}", 0]
        rows.append("\t".join(str(field).replace("\t", " ") for field in row))
        print(f"  music21: {rows[-1]}", file=sys.stderr)
    pathlib.Path(table).parent.mkdir(parents=True, exist_ok=True)
    pathlib.Path(table).write_text("".join(row + "\n" for row in rows))


if __name__ == "__main__":
    if len(sys.argv) == 4:
        main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
    else:
        sys.exit(__doc__)
