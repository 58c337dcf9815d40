/** One tab writes the diary: it holds a lock as long as it is open. */
export function holdThePen(): { held: Promise<void>; free: boolean } {
  const pen = { held: Promise.resolve(), free: true };
  if (!("locks" in navigator)) return pen;
  pen.free = false;
  pen.held = new Promise((resolve) => {
    void navigator.locks.request("sevenflats diary", () => {
      pen.free = true;
      resolve();
      return new Promise<never>(() => {});
    });
  });
  return pen;
}
