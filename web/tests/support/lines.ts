import type { Reporter, TestCase, TestModule, TestSuite } from "vitest/node";

interface Count {
  passed: number;
  failed: number;
}

/**
 * One line for each check, what went wrong under it, and a count at the end. A check that was left out has failed; a file
 * that is run once more is counted by its last run.
 */
export default class Lines implements Reporter {
  readonly #files = counted();

  onTestModuleStart(module: TestModule): void {
    this.#files.set(module.moduleId, { passed: 0, failed: 0 });
  }

  #count(file: string): Count {
    const count = this.#files.get(file) ?? { passed: 0, failed: 0 };
    this.#files.set(file, count);
    return count;
  }

  onTestCaseResult(test: TestCase): void {
    const result = test.result();
    const seconds = ((test.diagnostic()?.duration ?? 0) / 1000).toFixed(1);
    if (result.state === "passed") {
      this.#count(test.module.moduleId).passed += 1;
      console.log(`ok      ${test.fullName} (${seconds} s)`);
      return;
    }
    this.#count(test.module.moduleId).failed += 1;
    console.log(`FAILED  ${test.fullName} (${seconds} s)`);
    for (const error of result.errors ?? [])
      console.log(indented([error.message, error.diff, where(error.stack)].join("\n")));
  }

  onUserConsoleLog(log: { content: string }): void {
    console.log(indented(log.content.trimEnd()));
  }

  onTestSuiteResult(suite: TestSuite): void {
    this.#broken(suite.module.moduleId, suite.fullName, suite.errors());
  }

  onTestModuleEnd(module: TestModule): void {
    this.#broken(module.moduleId, module.moduleId, module.errors());
  }

  /** What went wrong outside of any one check. */
  #broken(file: string, name: string, errors: readonly { message: string; stack?: string }[]): void {
    for (const error of errors) {
      this.#count(file).failed += 1;
      console.log(`FAILED  ${name}`);
      console.log(indented([error.message, where(error.stack)].join("\n")));
    }
  }

  onTestRunEnd(_modules: readonly TestModule[], errors: readonly { message: string }[]): void {
    for (const error of errors) {
      this.#count("outside of any file").failed += 1;
      console.log(`FAILED  ${error.message}`);
    }
    if ([...this.#files.values()].every(({ passed, failed }) => passed + failed === 0)) {
      this.#count("outside of any file").failed += 1;
      console.log("FAILED  no check was run");
    }
  }
}

/** The counts of this process: where files are run once more, by another reporter, they are the same. */
function counted(): Map<string, Count> {
  const process_ = process as { counted?: Map<string, Count> };
  if (process_.counted) return process_.counted;
  const files = (process_.counted = new Map<string, Count>());
  const sum = (of: keyof Count) => [...files.values()].reduce((sum, count) => sum + count[of], 0);
  // last of all, whatever else is said
  process.once("exit", () => console.log(`${sum("passed")} passed, ${sum("failed")} failed`));
  return files;
}

/** The first of our own lines in a stack. */
const where = (stack = "") => stack.split("\n").find((line) => line.includes("/tests/")) ?? stack;

const indented = (text: string) => text.replace(/^/gm, "        ");
