import workletUrl from "./worklet?worker&url";
import { troubleOf, type SoundTrouble } from "./trouble";

/** Sound on its way to the engine, from a microphone or from an invented harp. */
export interface Source {
  /** Samples a second. */
  readonly rateHz: number;
  readonly context: AudioContext;
  /** Blocks come out here; it is handed to the engine. */
  readonly blocks: MessagePort;
  /** What the input is called, where the browser tells. */
  readonly name: string;
  /** Called when the input goes away, is muted, or is interrupted. */
  onTrouble: (trouble: SoundTrouble) => void;
  /** Called when the sound comes back by itself. */
  onBack: () => void;
  close(): void;
}

/** An input to choose. */
export interface Input {
  id: string;
  name: string;
}

/** Whether this page may listen at all. */
export function lacking(): SoundTrouble | undefined {
  if (!window.isSecureContext) return "insecure";
  const can = "mediaDevices" in navigator && "AudioWorkletNode" in window && "Worker" in window;
  return can ? undefined : "unsupported";
}

/** The inputs there are; they have names only once the page was allowed to listen. */
export async function inputs(): Promise<Input[]> {
  const devices = await navigator.mediaDevices.enumerateDevices();
  return devices
    .filter((device) => device.kind === "audioinput" && device.deviceId !== "")
    .map((device) => ({ id: device.deviceId, name: device.label }));
}

/** Opens a microphone as it is: nothing cancelled, suppressed or levelled, for that would bend what is measured. */
export async function openMicrophone(input?: string): Promise<Source> {
  const cannot = lacking();
  if (cannot) throw cannot;
  const raw = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  const chosen = input ? { deviceId: { exact: input } } : {};
  let stream: MediaStream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({ audio: { ...raw, ...chosen } });
  } catch (error) {
    throw troubleOf(error);
  }
  const track = stream.getAudioTracks()[0];
  const context = new AudioContext({ latencyHint: "interactive" });
  const source = await tapped(context, track?.label ?? "", () => stream.getTracks().forEach((t) => t.stop()));
  context.createMediaStreamSource(stream).connect(source.tap);
  if (track) {
    track.onended = () => source.onTrouble("unplugged");
    track.onmute = () => source.onTrouble("muted");
    track.onunmute = () => source.onBack();
  }
  context.onstatechange = () => {
    // a call takes the sound away on some phones; the state's name there is not in the standard yet
    if ((context.state as string) === "interrupted" || context.state === "suspended") source.onTrouble("interrupted");
    if (context.state === "running") source.onBack();
  };
  return source;
}

/** An invented round, on the same way as a microphone's sound; heard, too. */
export async function openDemo(): Promise<Source> {
  const { default: init, DemoRound } = await import("../made/demo");
  const { default: wasm } = await import("../made/demo_bg.wasm?url");
  await init({ module_or_path: wasm });
  const round = new DemoRound();
  const context = new AudioContext({ sampleRate: round.rate_hz() });
  let timer = 0;
  const source = await tapped(context, "", () => {
    clearInterval(timer);
    round.free();
  });
  const quieter = new GainNode(context, { gain: 0.5 });
  quieter.connect(context.destination);
  const pieces = new Pieces(context, (buffer, at) => {
    const piece = new AudioBufferSourceNode(context, { buffer });
    piece.connect(source.tap);
    piece.connect(quieter);
    piece.start(at);
  });
  const feed = () => {
    if (!pieces.wants()) return;
    const samples = round.more(PIECE_S * context.sampleRate);
    if (samples.length === 0) clearInterval(timer);
    else pieces.add(samples);
  };
  // some seconds at once, then a piece at a time, so that the page stays quick
  for (let piece = 0; piece < 3; piece += 1) feed();
  timer = window.setInterval(feed, 200);
  return source;
}

/** Seconds made at a time, and seconds made ahead. */
const PIECE_S = 1;
const AHEAD_S = 8;

/** Pieces of sound that join to the frame; where they come too late there is a gap, and they go on from there. */
class Pieces {
  #begun = 0;
  #frames = 0;

  constructor(
    readonly context: AudioContext,
    readonly play: (buffer: AudioBuffer, at: number) => void,
  ) {}

  get #due(): number {
    return this.#begun + this.#frames / this.context.sampleRate;
  }

  wants(): boolean {
    return this.#due < this.context.currentTime + AHEAD_S;
  }

  add(samples: Float32Array): void {
    const { sampleRate, currentTime } = this.context;
    if (this.#due < currentTime + 0.05) {
      this.#begun = Math.ceil((currentTime + 0.3) * sampleRate) / sampleRate;
      this.#frames = 0;
    }
    const buffer = this.context.createBuffer(1, samples.length, sampleRate);
    buffer.copyToChannel(new Float32Array(samples), 0);
    this.play(buffer, this.#due);
    this.#frames += samples.length;
  }
}

type Tapped = Source & { tap: AudioNode };

async function tapped(context: AudioContext, name: string, close: () => void): Promise<Tapped> {
  await context.audioWorklet.addModule(workletUrl);
  // a touch has come before, so this may start
  await context.resume();
  const tap = new AudioWorkletNode(context, "tap", { numberOfOutputs: 0 });
  const { port1, port2 } = new MessageChannel();
  tap.port.postMessage(port1, [port1]);
  const source: Tapped = {
    rateHz: context.sampleRate,
    context,
    blocks: port2,
    name,
    tap,
    onTrouble: () => {},
    onBack: () => {},
    close() {
      source.onTrouble = () => {};
      source.onBack = () => {};
      close();
      void context.close();
    },
  };
  return source;
}
