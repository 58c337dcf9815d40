import type { Tell } from "./messages";

/** For whoever measures: from the sound of a pluck to its reading on the screen. */
export function measurePluck(cameMs: number, string: string): void {
  requestAnimationFrame(() => {
    performance.clearMeasures();
    const start = cameMs - performance.timeOrigin;
    performance.measure("pluck to screen", { start, end: performance.now(), detail: string });
  });
}

/** For whoever measures: how many blocks of sound were taken and lost. */
export function markBlocks({ taken, lost, busyMs }: Extract<Tell, { is: "blocks" }>): void {
  performance.clearMarks("blocks");
  performance.mark("blocks", { detail: { taken, lost, busyMs } });
}
