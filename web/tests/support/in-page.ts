/** What the checks put into the page before its own program runs. */
export interface Stage {
  /** Refuse the microphone with an error of this name. */
  refuse: string | undefined;
  /** Let what the page sounds come back by its microphone, so much quieter. */
  echo: number;
  /** Frames to be cut out of the next block, told by the block's place or not. */
  cut: { frames: number; told: boolean } | undefined;
  /** Whether the diary's store is full. */
  full: boolean;
  /** When the microphone was last opened, by the page's clock. */
  openedAt: number;
  /** How often the page's own sound came back. */
  echoes: number;
  /** Takes the microphone away, as when its plug is pulled. */
  unplug(): void;
  /** Plays samples of 16 bits into the page's ear; done when they have sounded. */
  play(samples: string): Promise<void>;
  /** What stood large on the screen, and since when. */
  seen: { at: number; large: string[]; said: string }[];
}

declare global {
  interface Window {
    stage: Stage;
  }
}

/** Runs in the page, so it may use nothing from here. */
export function setStage({ live, sampleRate }: { live: string[]; sampleRate?: number }): void {
  if (sampleRate !== undefined) {
    // at the rate of the single plucks, which then arrive as they are
    const Own = window.AudioContext;
    const wished: AudioContextOptions = { sampleRate };
    window.AudioContext = class extends Own {
      constructor(options?: AudioContextOptions) {
        super({ ...options, ...wished });
      }
    };
  }
  let tap: AudioWorkletNode | undefined;
  let streams: MediaStream[] = [];
  const connect = AudioNode.prototype.connect as (
    this: AudioNode,
    to: AudioNode | AudioParam,
    ...rest: number[]
  ) => AudioNode;

  const stage: Stage = {
    refuse: undefined,
    echo: 0,
    cut: undefined,
    full: false,
    openedAt: 0,
    echoes: 0,
    seen: [],
    unplug() {
      const track = streams.at(-1)?.getAudioTracks()[0];
      track?.stop();
      track?.dispatchEvent(new Event("ended"));
    },
    async play(samples) {
      if (!tap) throw new Error("the page does not listen");
      const context = tap.context as AudioContext;
      const bytes = Uint8Array.from(atob(samples), (letter) => letter.charCodeAt(0));
      const steps = new Int16Array(bytes.buffer);
      const buffer = context.createBuffer(1, steps.length, 48_000);
      buffer.copyToChannel(
        Float32Array.from(steps, (step) => step / 32_768),
        0,
      );
      const piece = new AudioBufferSourceNode(context, { buffer });
      connect.call(piece, tap);
      await new Promise((resolve) => {
        piece.onended = resolve;
        piece.start(context.currentTime + 0.05);
      });
    },
  };
  window.stage = stage;

  AudioNode.prototype.connect = function (this: AudioNode, to: AudioNode | AudioParam, ...rest: number[]) {
    if (to instanceof AudioWorkletNode) tap = to;
    if (to === this.context.destination && stage.echo > 0 && tap?.context === this.context) {
      // from a loudspeaker to the microphone beside it
      const way = new DelayNode(this.context, { delayTime: 0.02 });
      const loudness = new GainNode(this.context, { gain: stage.echo });
      connect.call(this, way);
      connect.call(way, loudness);
      connect.call(loudness, tap);
      stage.echoes += 1;
    }
    return connect.call(this, to, ...rest);
  } as typeof AudioNode.prototype.connect;

  // between the tap and the engine: where a block may lose some of its frames
  const post = MessagePort.prototype.postMessage as (this: MessagePort, message: unknown, hand?: unknown) => void;
  const taps = new WeakSet<MessagePort>();
  const port = Object.getOwnPropertyDescriptor(AudioWorkletNode.prototype, "port");
  Object.defineProperty(AudioWorkletNode.prototype, "port", {
    ...port,
    get(this: AudioWorkletNode) {
      const own = port?.get?.call(this) as MessagePort;
      taps.add(own);
      return own;
    },
  });
  MessagePort.prototype.postMessage = function (this: MessagePort, message: unknown, hand?: unknown) {
    if (!taps.has(this) || !(message instanceof MessagePort)) return post.call(this, message, hand);
    const toEngine = message;
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<{ samples: Float32Array; frame: number; place: number }>) => {
      if (stage.cut && data.samples.length > stage.cut.frames) {
        const { frames, told } = stage.cut;
        stage.cut = undefined;
        data = { samples: data.samples.slice(frames), frame: data.frame + (told ? frames : 0), place: data.place };
      }
      post.call(toEngine, data);
    };
    return post.call(this, port2, [port2]);
  } as typeof MessagePort.prototype.postMessage;

  if (navigator.mediaDevices) {
    const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
    navigator.mediaDevices.getUserMedia = async (wished) => {
      if (stage.refuse !== undefined) throw new DOMException("refused by the check", stage.refuse);
      const stream = await ask(wished);
      streams = [...streams, stream];
      stage.openedAt = performance.now();
      return stream;
    };
  }

  const add = IDBObjectStore.prototype.add;
  IDBObjectStore.prototype.add = function (this: IDBObjectStore, ...what: Parameters<typeof add>) {
    if (stage.full) throw new DOMException("refused by the check", "QuotaExceededError");
    return add.apply(this, what);
  };

  // what stands large, and what is said, as often as it changes
  let last = "";
  setInterval(() => {
    const large: string[] = [];
    const walker = document.createTreeWalker(document.body ?? document, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const text = node.textContent?.trim() ?? "";
      const parent = node.parentElement;
      if (text !== "" && parent && Number.parseFloat(getComputedStyle(parent).fontSize) >= 60) large.push(text);
    }
    const status = [...document.querySelectorAll("[role=status]")];
    const said = status.find((one) => live.includes(one.getAttribute("aria-label") ?? ""))?.textContent ?? "";
    const now = JSON.stringify([large, said]);
    if (now === last) return;
    last = now;
    stage.seen.push({ at: performance.now(), large, said });
  }, 40);
}
