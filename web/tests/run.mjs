// Runs the checks of the page in a browser. They last as long as the sound that they play, on whatever machine is at
// hand, and a busy one breaks some of it: a file of which something failed is tried once more, and that is said. A fault
// that is there each time fails each time; one that is there now and then shows in what is said.
import { startVitest } from "vitest/node";

/** So many files of checks may need another try; more is no matter of chance. */
const MOST = 2;

/** Runs these files, or all; which of them are to be tried again, or why that cannot be. */
async function run(files) {
  const vitest = await startVitest("test", files, { config: "tests/vitest.config.ts", run: true });
  const modules = vitest.state.getTestModules();
  const failed = modules.filter((module) => !module.ok()).map((module) => module.moduleId);
  const sound = modules.length > 0 && vitest.state.getUnhandledErrors().length === 0;
  await vitest.close();
  return { failed, sound };
}

const first = await run(process.argv.slice(2));
if (first.sound && first.failed.length > 0 && first.failed.length <= MOST) {
  for (const file of first.failed) console.log(`once more: ${file}`);
  const second = await run(first.failed);
  process.exitCode = second.sound && second.failed.length === 0 ? 0 : 1;
}
