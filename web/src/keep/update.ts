/** Registers what keeps the page for when the network is off; `ready` is called when a new version waits. */
export async function keepOffline(ready: (use: () => void) => void): Promise<void> {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  const had = navigator.serviceWorker.controller !== null;
  const registration = await navigator.serviceWorker.register("./sw.js", { updateViaCache: "none" });
  const offer = (worker: ServiceWorker | null) => {
    if (worker?.state === "installed" && had) ready(() => worker.postMessage("take over"));
  };
  offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const worker = registration.installing;
    worker?.addEventListener("statechange", () => offer(worker));
  });
  // only what was asked for reloads: a first visit is taken over in silence
  if (had) navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
}
