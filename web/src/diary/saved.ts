/** Hands a file to the browser's own way of saving. */
export function saved(file: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** A name of a file for whom she says it is: what file systems forbid is left out. */
export function fileName(whose: string, day: string, ending: string): string {
  const clean = whose
    .normalize("NFC")
    .replace(/[\p{Cc}\p{Cf}\\/:*?"<>|.]+/gu, " ")
    .replace(/\s+/g, " ")
    .trim();
  return `${[...clean].slice(0, 60).join("").trim() || "sevenflats"}-${day}.${ending}`;
}
