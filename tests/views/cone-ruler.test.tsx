import { expect, it } from "vitest";
import { cones } from "../../src/chem/cones.ts";
import { ConeRuler, stretchOf } from "../../views/charts/cone-ruler.tsx";

const outlines = (drawing: string) => drawing.match(/ruler-claimed/g)?.length ?? 0;
const marks = (drawing: string) => drawing.match(/ruler-tested/g)?.length ?? 0;

it("outlines what is claimed and marks what was tested", () => {
  const ruler = String(
    <ConeRuler claimed={{ low: "5", high: "6" }} tested={["5", "6"]} cones={cones} />,
  );

  expect([outlines(ruler), marks(ruler)]).toEqual([1, 2]);
  expect(ruler).toContain("<desc>Cone 5 to 6 claimed, tested at 5 and 6</desc>");
});

it("says a test at a cone that the ruler does not reach", () => {
  const ruler = String(<ConeRuler claimed={undefined} tested={["04"]} cones={["4", "5", "6"]} />);

  expect(marks(ruler)).toBe(0);
  expect(ruler).toContain("No cone claimed, tested at 04");
});

it("never takes 04 for 4", () => {
  const left = (cone: string) =>
    /ruler-tested" x="([\d.]+)"/.exec(
      String(<ConeRuler claimed={undefined} tested={[cone]} cones={cones} />),
    )?.[1];

  expect(Number(left("04"))).toBeLessThan(Number(left("4")));
});

it("keeps a stretch of three cones either side, and the whole ruler where none is in use", () => {
  expect(stretchOf(cones, ["01", "1"])).toEqual(["04", "03", "02", "01", "1", "2", "3", "4"]);
  expect(stretchOf(cones, ["14"])).toEqual(["11", "12", "13", "14"]);
  expect(stretchOf(cones, [])).toEqual(cones);
});

// Edward Orton Jr. Ceramic Foundation, Temperature Equivalents for Orton Pyrometric Cones (°C),
// chart C-022-14 (2016), large self-supporting cones at 60 °C/h: cone 6, 1222 °C.
it("names the temperature and series of the cones on a large ruler", () => {
  const ruler = String(
    <ConeRuler large claimed={{ low: "6", high: "6" }} tested={[]} cones={cones} />,
  );

  expect(ruler).toContain("Cone 6 ends near 1222 °C");
  expect(ruler).toContain("self-supporting cones");
});
