/** What a short tone or a word says. */
export type Cue = "low" | "high" | "in tune";

/** Seconds. */
const TONE = 0.09;
const RAMP = 0.008;

/** Two short tones: rising is too low (go up), falling too high, one held is in tune. */
const TONES: Record<Cue, [number, number]> = {
  low: [1319, 1760],
  high: [1760, 1319],
  "in tune": [1568, 1568],
};

/** Plays a cue, and says from when to when, by the context's clock, it may be heard. */
export function playTones(context: AudioContext, cue: Cue): { from: number; to: number } {
  const from = context.currentTime + 0.03;
  const loudness = new GainNode(context, { gain: 0.12 });
  loudness.connect(context.destination);
  TONES[cue].forEach((hz, place) => {
    const start = from + place * TONE;
    const tone = new OscillatorNode(context, { frequency: hz });
    const shape = new GainNode(context, { gain: 0 });
    shape.gain.setValueAtTime(0, start);
    shape.gain.linearRampToValueAtTime(1, start + RAMP);
    shape.gain.setValueAtTime(1, start + TONE - RAMP);
    shape.gain.linearRampToValueAtTime(0, start + TONE);
    tone.connect(shape).connect(loudness);
    tone.start(start);
    tone.stop(start + TONE);
  });
  return { from, to: from + 2 * TONE };
}

/** A voice, where the browser has one. */
export interface Voice {
  readonly can: boolean;
  /** Says it in place of what is still being said; both are called once. */
  say(words: string, language: string, began: () => void, ended: () => void): void;
}

/** The browser's own voice. */
export function browsersVoice(): Voice {
  const speech = "speechSynthesis" in window ? window.speechSynthesis : undefined;
  return {
    get can() {
      return (speech?.getVoices().length ?? 0) > 0;
    },
    say(words, language, began, ended) {
      if (!speech) return;
      speech.cancel();
      const spoken = new SpeechSynthesisUtterance(words);
      spoken.lang = language;
      spoken.rate = 1.15;
      // from the moment it is asked for: when it starts is told too late
      began();
      let over = false;
      const end = () => {
        if (!over) ended();
        over = true;
      };
      spoken.onend = end;
      spoken.onerror = end;
      speech.speak(spoken);
    },
  };
}
