import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const TARGET = process.env["CARGO_TARGET_DIR"] ?? fileURLToPath(new URL("../../../target", import.meta.url));

/** The command, with the page inside. */
export const COMMAND = process.env["SEVENFLATS"] ?? join(TARGET, "release/sevenflats");

export interface Server {
  /** The page's address, with its last stroke. */
  url: string;
  stop(): Promise<void>;
}

/** `sevenflats serve` on a port that is free, or on a certain one; with a diary in this file, or with none. */
export async function serve(port = 0, diary?: string): Promise<Server> {
  const kept = diary === undefined ? ["--no-diary"] : ["--diary", diary];
  const program = spawn(COMMAND, ["serve", "--port", String(port), ...kept, "--json"], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const ended = new Promise<void>((resolve) => program.once("exit", () => resolve()));
  const failed = new Promise<never>((_, reject) => {
    program.once("error", reject);
    program.once("exit", (code) => reject(new Error(`${COMMAND} serve ended at once (${code})`)));
  });
  failed.catch(() => {});
  const line = new Promise<string>((resolve) => createInterface({ input: program.stdout }).once("line", resolve));
  const { url } = JSON.parse(await Promise.race([line, failed])) as { url: string };
  return {
    url: url.endsWith("/") ? url : `${url}/`,
    async stop() {
      program.kill("SIGTERM");
      await ended;
    },
  };
}
