import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { TestProject } from "vitest/node";
import { quiet, silent, wav } from "./samples";
import { COMMAND, serve } from "./server";

declare module "vitest" {
  interface ProvidedContext {
    /** The page's address. */
    url: string;
    /** The folder with the sounds. */
    sounds: string;
  }
}

/** Before all checks: a server, and the sounds that are played to the page. */
export default async function made(project: TestProject): Promise<() => Promise<void>> {
  const sounds = mkdtempSync(join(tmpdir(), "sevenflats-page-"));
  const maker = join(dirname(COMMAND), "examples", "page_round");
  const check = join(dirname(COMMAND), "examples", "page_check");
  const file = (name: string) => join(sounds, name);
  execFileSync(maker, [file("round.wav"), file("round.json")]);
  execFileSync(maker, [file("apart.wav"), file("apart.json"), "apart"]);
  execFileSync(check, [file("check.wav"), file("check.json")]);
  writeFileSync(file("quiet.wav"), wav(quiet(10)));
  writeFileSync(file("silent.wav"), wav(silent(5)));
  const server = await serve();
  project.provide("url", server.url);
  project.provide("sounds", sounds);
  return async () => {
    await server.stop();
    rmSync(sounds, { recursive: true, force: true });
  };
}
