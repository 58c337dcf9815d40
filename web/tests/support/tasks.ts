import type { Page } from "playwright-core";

interface Event {
  name: string;
  ph: string;
  pid: number;
  tid: number;
  dur?: number;
  tdur?: number;
  args: { name?: string };
}

/** How many tasks the page's own thread did meanwhile, and how long the longest took. */
export interface Tasks {
  counted: number;
  longestMs: number;
}

/**
 * Watches the page's own thread. A task is measured in the time that the thread had of a processor: where others keep the
 * machine busy, the clock would count their work as the page's.
 */
export async function cpuOfTasks(page: Page, meanwhile: () => Promise<void>): Promise<Tasks> {
  const session = await page.context().newCDPSession(page);
  const events: Event[] = [];
  session.on("Tracing.dataCollected", ({ value }) => events.push(...(value as unknown as Event[])));
  await session.send("Tracing.start", {
    transferMode: "ReportEvents",
    traceConfig: { includedCategories: ["toplevel", "devtools.timeline", "disabled-by-default-devtools.timeline"] },
  });
  await meanwhile();
  const complete = new Promise<void>((resolve) => session.once("Tracing.tracingComplete", () => resolve()));
  await session.send("Tracing.end");
  await complete;
  const isMain = new Set(
    events
      .filter((event) => event.name === "thread_name" && event.args.name === "CrRendererMain")
      .map((event) => `${event.pid} ${event.tid}`),
  );
  const tasks = events.filter(
    (event) => event.ph === "X" && event.name.endsWith("RunTask") && isMain.has(`${event.pid} ${event.tid}`),
  );
  return { counted: tasks.length, longestMs: Math.max(0, ...tasks.map((task) => (task.tdur ?? task.dur ?? 0) / 1000)) };
}
