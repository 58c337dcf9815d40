// Runs the checks of the page in a browser. They last as long as the sound that they play, on whatever machine is at
// hand, and a busy one breaks some of it: a file of which something failed is tried once more, and that is said. A fault
// that is there each time fails each time; one that is there now and then shows in what is said.
import { readdirSync } from "node:fs";
import { startVitest } from "vitest/node";

/** So many files of checks may need another try; more is no matter of chance. */
const MOST = 2;

/** In these nothing is plucked, and no time is taken but the processor's: two at once do not disturb each other. All others are run alone. */
const BESIDE = ["forecast", "guide", "handout", "paper", "programme", "strings", "students"].map(named);

function named(name) {
  return `tests/${name}.browser.ts`;
}

/** All others. */
function alone() {
  const all = readdirSync(import.meta.dirname).filter((file) => file.endsWith(".browser.ts"));
  return all.map((file) => `tests/${file}`).filter((file) => !BESIDE.includes(file));
}

/** Runs these files, one at a time or more; which of them are to be tried again, or why that cannot be. */
async function run(files, fileParallelism = false) {
  const vitest = await startVitest("test", files, {
    config: "tests/vitest.config.ts",
    run: true,
    fileParallelism,
    maxWorkers: 2,
  });
  const modules = vitest.state.getTestModules();
  const failed = modules.filter((module) => !module.ok()).map((module) => module.moduleId);
  const sound = modules.length > 0 && vitest.state.getUnhandledErrors().length === 0;
  await vitest.close();
  return { failed, sound };
}

const asked = process.argv.slice(2);
const groups = asked.length > 0 ? [await run(asked)] : [await run(alone()), await run(BESIDE, true)];
const failed = groups.flatMap((group) => group.failed);
let passed = groups.every((group) => group.sound) && failed.length === 0;
if (groups.every((group) => group.sound) && failed.length > 0 && failed.length <= MOST) {
  for (const file of failed) console.log(`once more: ${file}`);
  const again = await run(failed);
  passed = again.sound && again.failed.length === 0;
}
process.exitCode = passed ? 0 : 1;
