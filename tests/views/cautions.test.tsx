import { expect, it } from "vitest";
import {
  Cautions,
  DustCaution,
  FoodCaution,
  KilnCaution,
  LeachCaution,
} from "../../views/parts/cautions.tsx";
import { hazardName, hazards } from "../../views/parts/hazard-words.ts";
import { Term } from "../../views/parts/term.tsx";

it("names each hazard once, in one order, and defers to the data sheet", () => {
  const page = String(<Cautions hazards={["talc", "barium", "talc"]} />);
  const named = [...page.matchAll(/<dt>([^<]+)<\/dt>/g)].map(([, name]) => name);

  expect(named).toEqual([hazardName.barium, hazardName.talc]);
  expect(page).toContain("safety data sheet");
});

it("promises nobody that anything is safe", () => {
  const everything = [
    <Cautions hazards={hazards} />,
    <DustCaution />,
    <FoodCaution use="functional" />,
    <FoodCaution use="decorative" />,
    <LeachCaution />,
    <KilnCaution />,
  ].map(String);

  for (const caution of everything) {
    expect(caution.replaceAll("safety data sheet", "")).not.toMatch(/\bsafe(ly|ty)?\b/i);
  }
});

it("keeps what is decorative from food, and says of the rest what was tested and no more", () => {
  const [decorative, functional] = (["decorative", "functional"] as const).map((use) =>
    String(<FoodCaution use={use} />),
  );
  expect(decorative).toContain("Not for food.");
  for (const touched of ["food", "drink", "lips", "cutlery"]) expect(decorative).toContain(touched);
  expect(functional).not.toContain("Not for food.");
  expect(functional).toContain("does not certify");
});

it("says that no home test stands in for a laboratory", () => {
  expect(String(<LeachCaution />)).toContain("No test at home stands in");
});

it("opens a term's meaning from its own word, the same on each rendering", () => {
  const render = () =>
    String(
      <Term guide="base-and-additions#loss" means="What leaves as gas.">
        loss
      </Term>,
    );
  const [, target] = /popovertarget="([^"]+)"/.exec(render()) ?? [];

  expect(render()).toContain(`id="${target}"`);
  expect(render()).toBe(render());
  expect(render()).toContain('href="/guide/base-and-additions#loss"');
});
