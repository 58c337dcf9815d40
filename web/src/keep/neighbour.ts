/** Where it is remembered that nobody keeps a diary at this address. */
const KEY = "sevenflats neighbour";
/** How long that is taken for granted, milliseconds: a day. */
const HOLDS_MS = 86_400_000;

/** Whether a server of the page's own address keeps a diary; one that does not answer may. */
export type Neighbour = "keeps one" | "keeps none" | "away";

/**
 * Asks whether a server of the page's own address keeps a diary. A page on a plain host asks once a day; with the network off
 * nobody answers, and that is not remembered.
 */
export async function neighbour(insist = false): Promise<Neighbour> {
  if (!insist && isAlone()) return "keeps none";
  await ownWorker();
  try {
    const answer = await fetch("diary/have", { method: "HEAD", cache: "no-store", redirect: "error" });
    // our own worker answers in place of a server that is away
    if (answer.headers.has("x-away")) return "away";
    const keeps = answer.ok && answer.headers.get("content-type")?.startsWith("application/x-ndjson") === true;
    remember(keeps);
    return keeps ? "keeps one" : "keeps none";
  } catch {
    return "away";
  }
}

/** How long our own worker is waited for, milliseconds: it may not be allowed here. */
const WORKER_MS = 10_000;

/** Where our own worker stands between, a host that knows nothing of diaries leaves no complaint on the console. */
async function ownWorker(): Promise<void> {
  if (import.meta.env.DEV || !navigator.serviceWorker || navigator.serviceWorker.controller) return;
  const waited = new Promise((resolve) => setTimeout(resolve, WORKER_MS));
  const stands = new Promise((resolve) =>
    navigator.serviceWorker.addEventListener("controllerchange", resolve, { once: true }),
  );
  await Promise.race([stands, waited]);
}

function isAlone(): boolean {
  try {
    const since = Number(localStorage.getItem(KEY) ?? 0);
    return since > 0 && Date.now() - since < HOLDS_MS;
  } catch {
    return false;
  }
}

function remember(keeps: boolean): void {
  try {
    if (keeps) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, String(Date.now()));
  } catch {
    // asked again the next time
  }
}
