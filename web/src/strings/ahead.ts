import type { Page } from "../page.svelte";

/** Half past seven by the reader's own clock: today, or tomorrow where that is past. */
export function tonight(now: Date): Date {
  const at = new Date(now);
  at.setHours(19, 30, 0, 0);
  if (at <= now) at.setDate(at.getDate() + 1);
  return at;
}

/** A day from a field, at half past seven. */
export function evening(day: string): Date | undefined {
  const at = new Date(`${day}T19:30`);
  return Number.isNaN(at.getTime()) ? undefined : at;
}

interface Played {
  played: [string, number][][];
  all: boolean;
}

/** How much each string is played, where an evening stands on the page. */
export async function playedBy(page: Page): Promise<Played> {
  return (await page.evening?.played()) ?? { played: [], all: true };
}
