/** Whose work may fail: why it did is shown, and not thrown on. */
export class Attempts {
  trouble: string | undefined = $state();

  protected async attempt(work: () => Promise<void>): Promise<void> {
    try {
      this.trouble = undefined;
      await work();
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
    }
  }
}
