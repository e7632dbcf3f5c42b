/** All that was asked and answered, and what should not have been. */
export class Traffic {
  asked = 0;
  readonly statuses = new Map<number, number>();
  readonly done = new Map<string, number>();
  /** What broke, in words, the first hundred. */
  readonly faults: string[] = [];
  faultCount = 0;

  answered(status: number, what: string, says: () => string): void {
    this.asked += 1;
    this.statuses.set(status, (this.statuses.get(status) ?? 0) + 1);
    if (status >= 500) this.fault(`${what} answered ${status}: ${says().slice(0, 300)}`);
  }

  /** That something was carried out and acknowledged. */
  did(what: string): void {
    this.done.set(what, (this.done.get(what) ?? 0) + 1);
  }

  fault(says: string): void {
    this.faultCount += 1;
    if (this.faults.length < 100) this.faults.push(says);
  }

  /** Says what came instead of the status that alone is right. */
  expect(answer: { status: number; what: string; text: string }, ...right: number[]): boolean {
    if (right.includes(answer.status)) return true;
    if (answer.status < 500)
      this.fault(
        `${answer.what} answered ${answer.status} instead of ${right.join(" or ")}: ${answer.text.slice(0, 300)}`,
      );
    return false;
  }
}
