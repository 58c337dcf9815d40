const waiting = new Set<() => void>();

/** Does one thing a frame: many drawings at once would hold the page up. Gives what takes it back. */
export function inTurn(act: () => void): () => void {
  if (waiting.size === 0) requestAnimationFrame(next);
  waiting.add(act);
  return () => waiting.delete(act);
}

function next(): void {
  const [first] = waiting;
  if (!first) return;
  waiting.delete(first);
  first();
  // a task of its own, so that what was just drawn is laid out before
  if (waiting.size > 0) requestAnimationFrame(() => setTimeout(next));
}
