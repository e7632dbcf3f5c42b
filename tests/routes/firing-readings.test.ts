import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { firingLogs, firingReadings } from "../../src/db/schema/index.ts";
import { firing as climb } from "../chem/firings.ts";
import { made } from "../evidence.ts";
import { openTestStudio, origin, type TestStudio, type Who } from "../studio.ts";

type Kept = { received: number; kept: number; readings: [number, number][]; reduced: boolean };
type Faulty = { status: number; errors: { path: string; says: string }[] };

describe("a firing's readings", () => {
  let studio: TestStudio;
  let kilns = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  /** A firing that the author put on record. */
  const fire = async (more: object = {}): Promise<string> => {
    kilns += 1;
    const kiln = await made<{ slug: string }>(studio, "/kilns", { name: `Gannet ${kilns}` });
    const about = { kiln: kiln.slug, kind: "oxidation", cone: "6" };
    const given = { ...about, startedAt: "2026-09-01T08:00:00Z", ...more };
    return `/firings/${(await made<{ id: string }>(studio, "/firings", given)).id}`;
  };
  const upload = (who: Who, path: string, csv: string, headers: Record<string, string> = {}) =>
    studio.app.request(`${origin}${path}`, {
      method: "POST",
      body: csv,
      headers: {
        "content-type": "text/csv",
        accept: "application/json",
        ...(who !== "visitor" && { cookie: studio.cookies[who] }),
        ...headers,
      },
    });
  const send = async (path: string, csv: string, query = "") => {
    const answer = await upload("author", `${path}/readings${query}`, csv);
    return { status: answer.status, ...((await answer.json()) as Omit<Faulty, "status">) };
  };
  const kept = (path: string) => studio.json<Kept>("visitor", `${path}/readings`);
  const count = async () => [
    await studio.db.$count(firingLogs),
    await studio.db.$count(firingReadings),
  ];

  it.each<[Who, number]>([
    ["visitor", 401],
    ["other member", 403],
    ["author", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who sends some with %i", async (who, status) => {
    const path = await fire();
    const before = await count();
    const answer = await upload(who, `${path}/readings`, "0,20\n1,21\n");
    expect(answer.status).toBe(status);
    const there = await studio.send("visitor", `${path}/readings`, { accept: "application/json" });
    expect(there.status).toBe(status === 201 ? 200 : 404);
    if (status !== 201) expect(await count()).toEqual(before);
    if (status === 403) expect(await answer.text()).toContain("a reviewer or a manager can add");
  });

  it.each<[string, string, string]>([
    ["a comma", "minutes,celsius\n0,20\n1.5,120.25\n", ""],
    ["a semicolon", "0;20\r\n1.5;120.25", ""],
    ["a tab", "\n0\t20\r1.5\t120.25\r", ""],
    ["quotes", '"minutes","°C"\n"0","20"\n"1.5","120.25"', ""],
    ["°F by its heading", "Minutes,Temp (°F)\n0,68\n1.5,248.45\n", ""],
    ["°F by the word", "minutes;fahrenheit\n0;68\n1.5;248.45\n", ""],
    ["°F by the query", "0,68\n1.5,248.45\n", "?unit=F"],
    ["°F by both", "minutes,fahrenheit\n0,68\n1.5,248.45\n", "?unit=F"],
  ])("are read with %s", async (_, csv, query) => {
    const path = await fire();
    expect(await send(path, csv, query)).toEqual({ status: 201, received: 2, kept: 2 });
    expect(await kept(path)).toEqual({
      received: 2,
      kept: 2,
      readings: [
        [0, 20],
        [1.5, 120.25],
      ],
      reduced: false,
    });
  });

  it("are put in order, the last of a moment is kept, and gaps stay gaps", async () => {
    const path = await fire();
    const csv = "60,600\n0,20\n1,21\n61,610\n1,22\n60,601\n";
    expect(await send(path, csv)).toEqual({ status: 201, received: 6, kept: 4 });
    expect((await kept(path)).readings).toEqual([
      [0, 20],
      [1, 22],
      [60, 601],
      [61, 610],
    ]);
    const page = await (await studio.send("visitor", path)).text();
    expect(page).toContain("6 readings came and 4 are kept");
    expect(page).toContain("In one gap nothing was read.");
    expect(page.match(/class="ramp-line"/g)).toHaveLength(2);
  });

  it("come as pairs of JSON too, read to their last bracket", async () => {
    const path = await fire();
    const pairs = [
      [0, 20],
      [1e1, -5.5],
      [20, 30],
    ];
    const answer = await studio.send("author", `${path}/readings`, { json: pairs });
    expect(answer.status).toBe(201);
    expect((await kept(path)).readings).toEqual(pairs);
    const fahrenheit = [[0, 212]];
    await studio.send("author", `${path}/readings?unit=F`, { json: fahrenheit });
    expect((await kept(path)).readings).toEqual([[0, 100]]);
  });

  it.each<[string, string, RegExp]>([
    ["a pair that is none", '[[0,20],[1,"x"],[2,22]]', /^Reading 2: A reading is \[minutes, temp/],
    ["a triple", "[[0,20,1]]", /^Reading 1: A reading is/],
    ["half a list", "[[0,20],[1,21]", /list of readings is asked for/],
    ["more after the list", "[[0,20]] [1]", /list of readings is asked for/],
    ["an object", '{"readings":[]}', /list of readings is asked for/],
    ["an empty list", "[]", /^No readings came/],
    ["heat beyond every kiln", "[[0,20],[1,1601]]", /^Reading 2: 1601 °C is over 1600 °C/],
  ])("are refused as JSON of %s", async (_, body, says) => {
    const path = await fire();
    const before = await count();
    const answer = await upload("author", `${path}/readings`, body, {
      "content-type": "application/json",
    });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as Faulty).errors[0]?.says).toMatch(says);
    expect(await count()).toEqual(before);
  });

  it.each<[string, string, string, RegExp]>([
    ["nothing", "", "", /^No readings came/],
    ["only a heading", "minutes,celsius\n", "", /^No readings came/],
    ["words", "0,20\nhot,very\n", "", /^Line 2: “hot,very” is not minutes and a temperature/],
    ["no number", "0,20\n1,NaN\n", "", /^Line 2: “1,NaN”/],
    ["no number at first", "0,inf\n1,20\n", "", /^Line 1: “0,inf”/],
    ["a number without end", "0,20\n1,1e999\n", "", /^Line 2: this is no number/],
    ["a column too many", "0,20,5\n", "", /^Line 1: “0,20,5”/],
    ["commas in decimals", "0;20,5\n", "", /Write decimals with a point/],
    ["time before the start", "\n\n-1,20\n", "", /^Line 3: minute -1 lies before the start/],
    ["time since 1970", "29400000,20\n", "", /^Line 1: minute 29400000 is years on/],
    ["cold", "0,-50.5\n", "", /^Line 1: -50.5 °C is below -50 °C/],
    ["heat in °F", "0,3000\n", "?unit=F", /^Line 1: 3000 °F is over 1600 °C/],
    ["hours", "hours,celsius\n0,20\n", "", /headed “hours”, and it has to be minutes/],
    ["a unit that nobody knows", "minutes,kelvin\n0,20\n", "", /does not tell °C from °F/],
    ["two units", "minutes,celsius\n0,20\n", "?unit=F", /the heading says °C, and you said °F/],
    ["a unit that is none", "0,20\n", "?unit=K", /^The unit is C or F/],
  ])("are refused with %s, by the line, and nothing is kept", async (_, csv, query, says) => {
    const path = await fire();
    const before = await count();
    const { status, errors } = await send(path, csv, query);
    expect(status).toBe(422);
    expect(errors[0]?.says).toMatch(says);
    expect(await count()).toEqual(before);
  });

  it("name the first ten faults and how many more there are", async () => {
    const path = await fire();
    const lines = Array.from({ length: 25 }, (_, at) => (at % 2 === 0 ? `${at},20` : `${at},x`));
    const { errors } = await send(path, lines.join("\n"));
    expect(errors).toHaveLength(11);
    expect(errors[9]?.says).toMatch(/^Line 20:/);
    expect(errors[10]?.says).toBe("And 2 more like these.");
  });

  it("are too many past a million, and too large past 40 MB", async () => {
    const path = await fire();
    const many = Array.from({ length: 1_000_001 }, (_, at) => `${at},20`).join("\n");
    const answer = await upload("author", `${path}/readings`, many);
    expect(answer.status).toBe(413);
    expect(await answer.text()).toContain("More than 1,000,000 readings");
    const large = `0,20\n${" ".repeat(41 * 1024 * 1024)}`;
    expect((await upload("author", `${path}/readings`, large)).status).toBe(413);
    const size = String(large.length);
    const sized = await upload("author", `${path}/readings`, "0,20", { "content-length": size });
    expect(sized.status).toBe(413);
    expect(await sized.text()).toContain("one a second is plenty");
  });

  it("are taken a hundred thousand at a time, thinned to be drawn and whole as CSV", async () => {
    const path = await fire();
    const celsius = (at: number) => (at === 77_777 ? 1250 : Math.round(at / 90) + (at % 10) / 10);
    const lines = Array.from({ length: 100_000 }, (_, at) => `${at / 10},${celsius(at)}`);
    expect(await send(path, lines.join("\n"))).toMatchObject({ status: 201, kept: 100_000 });
    const { readings, reduced } = await kept(path);
    expect(reduced).toBe(true);
    expect(readings.length).toBeLessThanOrEqual(2000);
    expect(readings).toContainEqual([7777.7, 1250]);
    const answer = await studio.send("visitor", `${path}/readings?all=1`);
    expect(answer.headers.get("content-type")).toContain("text/csv");
    expect(answer.headers.get("content-disposition")).toMatch(
      /^attachment; filename="readings-gannet-\d+-2026-09-01\.csv"$/,
    );
    const written = (await answer.text()).trimEnd().split("\n");
    expect(written[0]).toBe("minutes,celsius");
    expect(written).toHaveLength(100_001);
    expect(written[77_778]).toBe("7777.7,1250");
    expect(written.slice(1, 200)).toEqual(lines.slice(0, 199));
  });

  it("count by the newest, and a double tap adds nothing", async () => {
    const path = await fire();
    expect((await send(path, "0,20\n1,21\n")).status).toBe(201);
    const before = await count();
    expect((await send(path, "0,20\n1,21\n")).status).toBe(200);
    expect(await count()).toEqual(before);
    expect((await send(path, "0,30\n")).status).toBe(201);
    expect((await kept(path)).readings).toEqual([[0, 30]]);
    expect((await count())[0]).toBe((before[0] ?? 0) + 1);
  });

  const form = (fields: Record<string, string | File>) => {
    const data = new FormData();
    for (const [name, value] of Object.entries(fields)) data.append(name, value);
    return data;
  };
  const file = (text: string) => new File([text], "log.csv", { type: "text/csv" });

  it("come by a form, pasted or as a file, with the file's field left empty", async () => {
    const path = await fire();
    const pasted = form({ readings: "0,68\r\n1,70\r\n", unit: "F" });
    pasted.append("readings", new File([], ""));
    const answer = await studio.send("author", `${path}/readings`, { form: pasted });
    expect(answer.status).toBe(303);
    expect(answer.headers.get("location")).toBe(`${path}#readings`);
    expect((await kept(path)).readings[0]).toEqual([0, 20]);

    const sent = form({ readings: file("minutes,celsius\n0,25\n"), unit: "" });
    expect((await studio.send("author", `${path}/readings`, { form: sent })).status).toBe(303);
    expect((await kept(path)).readings).toEqual([[0, 25]]);
  });

  it("stay in the form where a line is wrong, and a file and a text are not both taken", async () => {
    const path = await fire();
    const before = await count();
    const wrong = form({ readings: "0,20\n1,<hot>\n", unit: "F" });
    const answer = await studio.send("author", `${path}/readings`, { form: wrong });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page.replaceAll("\r\n", "\n")).toContain("0,20\n1,&lt;hot&gt;");
    expect(page).toContain('href="#field-readings"');
    expect(page).toMatch(/value="F" checked/);
    expect(page).toMatch(/<details open=""><summary>Add the readings/);
    const both = form({ readings: "0,20" });
    both.append("readings", file("0,20\n"));
    const refused = await studio.send("author", `${path}/readings`, { form: both });
    expect(await refused.text()).toContain("not both");
    expect(await count()).toEqual(before);
  });

  it("show the way to add them to who may, and to nobody else", async () => {
    const path = await fire();
    const pageOf = async (who: Who) => (await studio.send(who, path)).text();
    for (const who of ["author", "reviewer", "manager"] as const)
      expect(await pageOf(who), who).toContain("Add the readings");
    for (const who of ["visitor", "other member"] as const)
      expect(await pageOf(who), who).not.toContain("Add the readings");
  });

  it("are drawn over the programme, with the cone that all of them come to", async () => {
    const witness = [{ cone: "6", bendDegrees: 90, place: "top shelf" }];
    const programme = [{ celsiusPerHour: 60, toCelsius: 1222 }];
    const path = await fire({ witness, programme });
    const pairs = climb({ peak: 1222, rate: 60, from: 20 });
    await studio.send("author", `${path}/readings`, { json: pairs });
    const page = await (await studio.send("visitor", path)).text();
    expect(page).toMatch(/class="ramp-set"[^>]+>.*class="ramp-line"/s);
    expect(page).toContain("came to 1222 °C (2232 °F) at 20 h 2 min at the highest");
    expect(page).toContain("Near cone 6, estimated to ± 10 °C.");
    expect(page).toContain("60 °C an hour (108 °F an hour)");
    expect(page).toContain("No witness cone contradicts that");
    expect(page).toMatch(/<th scope="row">20 h 0 min<\/th><td>1220<\/td><td>2228<\/td>/);
    const { readings } = await studio.json<{ readings: object }>("visitor", path);
    expect(readings).toMatchObject({
      estimate: { cone: "6", lower: "5", upper: "7", plusMinus: 10 },
      highest: [1202, 1222],
      contradictedBy: [],
    });
  });

  it("after a hold are given no bare cone", async () => {
    const path = await fire();
    const pairs = climb({ peak: 1222, rate: 60, hold: 15 });
    await studio.send("author", `${path}/readings`, { json: pairs });
    const page = await (await studio.send("visitor", path)).text();
    expect(page).toContain("Cone 5 at the least, estimated to ± 10 °C; it was held");
    expect(page).toContain("a hold adds heat work which this does not count");
    expect(page).toContain("this is an estimate and no evidence");
    expect(page).not.toContain("<strong>Near cone");
  });

  it.each<[string, number, string]>([
    ["7", 150, "Witness cone 7 (back) went down, though by the readings it was not reached."],
    ["5", 10, "Witness cone 5 (back) did not go down, though by the readings it was reached."],
  ])(
    "that witness cone %s at %i° contradicts are not believed",
    async (cone, bendDegrees, says) => {
      const path = await fire({ witness: [{ cone, bendDegrees, place: "back" }] });
      await studio.send("author", `${path}/readings`, { json: climb({ peak: 1222, rate: 60 }) });
      const page = await (await studio.send("visitor", path)).text();
      expect(page).toContain("The readings and the witness cones disagree.");
      expect(page).toContain(says);
      expect(page).toContain("The witness cone is believed");
    },
  );

  it("have an address of their own, and none where there are none", async () => {
    const path = await fire();
    expect((await studio.send("author", `${path}/readings`)).status).toBe(404);
    await send(path, "0,20\n");
    const there = await studio.send("visitor", `${path}/readings`);
    expect([there.status, there.headers.get("location")]).toEqual([302, `${path}#readings`]);
    for (const id of ["7", "00000000-0000-7000-8000-000000000000"]) {
      expect((await upload("manager", `/firings/${id}/readings`, "0,20")).status, id).toBe(404);
    }
    const plain = await upload("author", `${path}/readings`, "0,20", {
      "content-type": "text/plain",
      origin,
    });
    expect(plain.status).toBe(415);
  });

  it("are told in the record", async () => {
    const path = await fire();
    await send(path, "0,20\n0,21\n");
    const page = await (await studio.send("manager", "/events")).text();
    expect(page).toContain("put 1 readings of a firing on record");
  });
});
