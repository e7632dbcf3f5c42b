import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mayGo } from "../../src/work/backup-rule.ts";

const day = 24 * 60 * 60 * 1000;
const now = new Date("2026-11-20T04:00:00Z");
const ago = (days: number) => new Date(now.getTime() - days * day);

/** What is left where one is made every day and the rule is followed every day. */
function afterDays(days: number): number[] {
  let there: Date[] = [];
  for (let age = days; age >= 0; age -= 1) {
    const today = ago(age);
    there = [...there, today];
    const going = new Set(mayGo(there, today).map((at) => at.getTime()));
    there = there.filter((at) => !going.has(at.getTime()));
  }
  return there.map((at) => Math.round((now.getTime() - at.getTime()) / day));
}

describe("which backups may go", () => {
  it("leaves a week of days, a month of weeks, a year of months, and a year each before", () => {
    const ages = afterDays(800);
    const between = (least: number, most: number) =>
      ages.filter((age) => age >= least && age < most).length;
    expect(between(0, 7)).toBe(7);
    expect(between(7, 35)).toBeGreaterThanOrEqual(4);
    expect(between(7, 35)).toBeLessThanOrEqual(5);
    expect(between(35, 396)).toBeGreaterThanOrEqual(11);
    expect(between(35, 396)).toBeLessThanOrEqual(14);
    expect(between(396, 900)).toBeGreaterThanOrEqual(1);
    expect(between(396, 900)).toBeLessThanOrEqual(3);
  });

  it("never takes the newest, nor one of the last seven days, nor all of a time", () => {
    const moments = fc.array(fc.integer({ min: 0, max: 3000 }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(moments, (ages) => {
        const made = [...new Set(ages)].map(ago);
        const going = mayGo(made, now);
        const left = made.filter((at) => !going.includes(at));
        expect(left.length).toBeGreaterThan(0);
        const newest = Math.max(...made.map((at) => at.getTime()));
        expect(left.map((at) => at.getTime())).toContain(newest);
        for (const at of going) {
          expect(now.getTime() - at.getTime()).toBeGreaterThanOrEqual(7 * day);
          // A newer one stands in for it, and is not over a year younger.
          const stands = left.some(
            (other) => other > at && other.getTime() - at.getTime() < 366 * day,
          );
          expect(stands).toBe(true);
        }
        // What is left is left the next time too.
        expect(mayGo(left, now)).toEqual([]);
      }),
    );
  });
});
