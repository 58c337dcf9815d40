/** Registers what keeps the page for when the network is off; `ready` is called when a new version waits. */
export async function keepOffline(ready: (use: () => void) => void): Promise<void> {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  const had = navigator.serviceWorker.controller !== null;
  const registration = await navigator.serviceWorker.register("./sw.js", { updateViaCache: "none" });
  let asked = false;
  const offer = (worker: ServiceWorker | null) => {
    if (worker?.state !== "installed" || !had) return;
    ready(() => {
      asked = true;
      worker.postMessage("take over");
    });
  };
  offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const worker = registration.installing;
    worker?.addEventListener("statechange", () => offer(worker));
  });
  // only what was asked for here reloads: a first visit is taken over in silence, and so is a round in another tab
  navigator.serviceWorker.addEventListener("controllerchange", () => asked && location.reload());
}
