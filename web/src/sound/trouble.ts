/** Why a microphone gives nothing. */
export type SoundTrouble =
  | "denied"
  | "missing"
  | "busy"
  | "muted"
  | "insecure"
  | "unplugged"
  | "interrupted"
  | "unsupported"
  | { other: string };

/** What an error of `getUserMedia` means (W3C Media Capture and Streams, section 10.3). */
export function troubleOf(error: unknown): SoundTrouble {
  const name = error instanceof DOMException || error instanceof Error ? error.name : "";
  switch (name) {
    case "NotAllowedError":
    case "SecurityError":
      return "denied";
    case "NotFoundError":
    case "OverconstrainedError":
      return "missing";
    case "NotReadableError":
    case "AbortError":
      return "busy";
    default:
      return { other: error instanceof Error ? error.message : String(error) };
  }
}
