#!/usr/bin/env python3
"""Runs others on the sounds that `bench sounds` wrote: rivals.py SOUNDS OUT

Each hears the half second from the pluck on and gives the median of its frames between 30 and 3400 Hz. Reads
SOUNDS/plucks.csv and SOUNDS/<set>.f32; writes OUT/about.tsv and OUT/pitches.tsv. One that is not installed, or that cannot
read a steady tone, is written down as not run, with the reason. Some of these libraries are under the GPL: they are
used here as installed, by a program of its own, and are no part of anything that is built.
"""
import csv
import os
import subprocess
import sys
import time

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "NUMBA_NUM_THREADS"):
    os.environ[threads] = "1"

try:
    import numpy as np
except ImportError:
    np = None

RATE, FRAME, HOP = 48000, 8192, 1024
LOW, HIGH = 30.0, 3400.0
SECONDS = 0.5


def librosa_yin():
    import librosa

    def frames(x):
        return librosa.yin(x, fmin=LOW, fmax=HIGH, sr=RATE, frame_length=FRAME, hop_length=HOP, center=False)

    return f"{librosa.__version__}, ISC; frames of {FRAME}, hop {HOP}", frames


def praat():
    import parselmouth

    def frames(x):
        pitch = parselmouth.Sound(x.astype(float), RATE).to_pitch_ac(pitch_floor=LOW, pitch_ceiling=HIGH)
        return pitch.selected_array["frequency"]

    return f"praat-parselmouth {parselmouth.__version__}, GPL-3.0; its usual settings, {LOW:g} to {HIGH:g} Hz", frames


def aubio_method(method):
    def load():
        import aubio

        def frames(x):
            pitch = aubio.pitch(method, FRAME, HOP, RATE)
            pitch.set_unit("Hz")
            found = [pitch(x[at : at + HOP])[0] for at in range(0, len(x) - HOP + 1, HOP)]
            return np.array(found[FRAME // HOP - 1 :])  # before that its frame is not yet full

        return f"{aubio.version}, GPL-3.0; frames of {FRAME}, hop {HOP}", frames

    return load


RIVALS = {
    "librosa yin": librosa_yin,
    "praat autocorrelation": praat,
    "aubio yinfast": aubio_method("yinfast"),
    "aubio mcomb": aubio_method("mcomb"),
}


def estimate(frames, x):
    """Median of the frames in range, in hertz, or None."""
    found = np.asarray(frames(x), float)
    found = found[np.isfinite(found) & (found >= LOW) & (found <= HIGH)]
    return float(np.median(found)) if len(found) else None


def ready(load):
    """-> about, frames; raises where the library is not there or cannot read a steady tone."""
    if np is None:
        raise ImportError("numpy is not installed")
    about, frames = load()
    t = np.arange(int(SECONDS * RATE)) / RATE
    for hz in (65.4, 220.0, 880.0):
        tone = sum(0.1 / n * np.sin(2 * np.pi * n * hz * t) for n in range(1, 7)).astype(np.float32)
        found = estimate(frames, tone)
        if found is None or abs(1200 * np.log2(found / hz)) > 10:
            raise RuntimeError(f"reads a steady tone of {hz} Hz as {found}")
    return about, frames


def run_one(name, sounds):
    """Prints its lines of pitches.tsv, then its line of about.tsv."""
    about, frames = ready(RIVALS[name])
    by_set = {}
    for pluck in plucks(sounds):
        by_set.setdefault(pluck["set"], []).append(pluck)
    computed, count = 0.0, 0
    for which, rows in by_set.items():
        data = np.fromfile(os.path.join(sounds, which + ".f32"), "<f4").reshape(len(rows), int(SECONDS * RATE))
        for row, x in zip(rows, data):
            start = time.process_time()
            hz = estimate(frames, x)
            computed, count = computed + time.process_time() - start, count + 1
            print(name, which, row["index"], row["take"], "" if hz is None else f"{hz:.9g}", sep="\t")
    print(name, f"{computed / (SECONDS * max(1, count)):.4f}", about, sep="\t")


def plucks(sounds):
    with open(os.path.join(sounds, "plucks.csv"), newline="") as file:
        return list(csv.DictReader(file))


def main(sounds, out):
    """Each in a process of its own, so that one which breaks down takes no other with it."""
    os.makedirs(out, exist_ok=True)
    count = len(plucks(sounds))
    about_path, pitches_path = (os.path.join(out, name) for name in ("about.tsv", "pitches.tsv"))
    with open(about_path, "w") as about, open(pitches_path, "w") as pitches:
        print("name", "load", "about", sep="\t", file=about)
        print("name", "set", "index", "take", "hz", sep="\t", file=pitches)
        for name in RIVALS:
            done = subprocess.run([sys.executable, __file__, sounds, out, name], capture_output=True, text=True)
            lines = done.stdout.splitlines()
            if done.returncode == 0 and len(lines) == count + 1:
                pitches.write("".join(line + "\n" for line in lines[:-1]))
                print(lines[-1], file=about)
                print(f"  {name}: {count} plucks", file=sys.stderr)
                continue
            said = done.stderr.strip().splitlines()
            reason = said[-1].replace("\t", " ") if done.returncode > 0 and said else f"it ended with {done.returncode}"
            print(name, "", f"not run: {reason}", sep="\t", file=about)
            print(f"  {name}: not run: {reason}", file=sys.stderr)


if __name__ == "__main__":
    if len(sys.argv) == 3:
        main(*sys.argv[1:])
    elif len(sys.argv) == 4:
        run_one(sys.argv[3], sys.argv[1])
    else:
        sys.exit(__doc__)
