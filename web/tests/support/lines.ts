import type { Reporter, TestCase, TestModule, TestSuite } from "vitest/node";

/** One line for each check, what went wrong under it, and a count at the end. A check that was left out has failed. */
export default class Lines implements Reporter {
  #passed = 0;
  #failed = 0;

  onTestCaseResult(test: TestCase): void {
    const result = test.result();
    const seconds = ((test.diagnostic()?.duration ?? 0) / 1000).toFixed(1);
    if (result.state === "passed") {
      this.#passed += 1;
      console.log(`ok      ${test.fullName} (${seconds} s)`);
      return;
    }
    this.#failed += 1;
    console.log(`FAILED  ${test.fullName} (${seconds} s)`);
    for (const error of result.errors ?? [])
      console.log(indented([error.message, error.diff, where(error.stack)].join("\n")));
  }

  onUserConsoleLog(log: { content: string }): void {
    console.log(indented(log.content.trimEnd()));
  }

  onTestSuiteResult(suite: TestSuite): void {
    this.#broken(suite.fullName, suite.errors());
  }

  onTestModuleEnd(module: TestModule): void {
    this.#broken(module.moduleId, module.errors());
  }

  /** What went wrong outside of any one check. */
  #broken(name: string, errors: readonly { message: string; stack?: string }[]): void {
    for (const error of errors) {
      this.#failed += 1;
      console.log(`FAILED  ${name}`);
      console.log(indented([error.message, where(error.stack)].join("\n")));
    }
  }

  onTestRunEnd(_modules: readonly TestModule[], errors: readonly { message: string }[]): void {
    for (const error of errors) {
      this.#failed += 1;
      console.log(`FAILED  ${error.message}`);
    }
    if (this.#passed + this.#failed === 0) {
      this.#failed += 1;
      console.log("FAILED  no check was run");
    }
    // last of all, whatever else is said
    process.once("exit", () => console.log(`${this.#passed} passed, ${this.#failed} failed`));
  }
}

/** The first of our own lines in a stack. */
const where = (stack = "") => stack.split("\n").find((line) => line.includes("/tests/")) ?? stack;

const indented = (text: string) => text.replace(/^/gm, "        ");
