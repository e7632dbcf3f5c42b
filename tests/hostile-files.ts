import { zipSync } from "./zip-bytes.ts";

export type Hostile = { what: string; bytes: Buffer };

type Random = () => number;

const utf8 = (text: string): Buffer => Buffer.from(text, "utf8");

/** Files that are broken or mean harm, each of one kind, made by hand. */
export function madeHostile(good: {
  json: string;
  recipes: string;
  analyses: string;
  zip: Buffer;
}) {
  const { json, recipes, analyses, zip } = good;
  const each = (what: string, bytes: Buffer): Hostile => ({ what, bytes });
  const row = (cells: string) => `recipe,part,material,amount,cone\n${cells}\n`;
  const amount = (value: string) => json.replace('"amount": "40"', `"amount": ${value}`);
  return [
    each("nothing", Buffer.alloc(0)),
    each("one byte", utf8("{")),
    each("blanks", utf8(" \r\n\t ")),
    each("a mark and nothing", utf8("\ufeff")),
    each("zeros", Buffer.alloc(4096)),
    each("noise", Buffer.from(Array.from({ length: 999 }, (_, at) => (at * 7919) % 256))),
    each("UTF-16 without a mark", Buffer.from(recipes, "utf16le")),
    each(
      "UTF-16 with a mark",
      Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(recipes, "utf16le")]),
    ),
    each(
      "half of UTF-16",
      Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from("a,b", "utf16le").subarray(0, 3)]),
    ),
    each("lone surrogate in UTF-16", Buffer.from([0xff, 0xfe, 0x00, 0xd8, 0x41, 0x00])),
    each("Latin-1", Buffer.from(row("Caf\u00e9,base,Quartz,1,6"), "latin1")),
    each("deep lists", utf8("[".repeat(200_000))),
    each("deep objects", utf8(`${'{"a":'.repeat(5000)}1${"}".repeat(5000)}`)),
    each("closed deep lists", utf8(`${"[".repeat(3000)}${"]".repeat(3000)}`)),
    each("many lists", utf8(`[${Array(5000).fill("[]").join(",")}]`)),
    ...[
      "NaN",
      "Infinity",
      "1e400",
      "-1e400",
      "-40",
      '"-40"',
      '"1e5"',
      '"NaN"',
      "0",
      '"0"',
      "null",
    ].map((value) => each(`an amount of ${value}`, utf8(amount(value)))),
    ...[
      "1e-300",
      '"0.0000001"',
      '"40.00000000000001"',
      "[]",
      "{}",
      "true",
      '""',
      `"${"9".repeat(400)}"`,
    ].map((value) => each(`an amount of ${value.slice(0, 20)}`, utf8(amount(value)))),
    each("a version of tomorrow", utf8(json.replace('"version": 1', '"version": 2'))),
    each("another format", utf8(json.replace("common-bucket/import", "elsewhere/import"))),
    each(
      "__proto__",
      utf8(json.replace('"recipes"', '"__proto__": {"role": "manager"}, "recipes"')),
    ),
    each("constructor", utf8(json.replace('"recipes"', '"constructor": {}, "recipes"'))),
    each("a key twice", utf8(json.replace('"version": 1', '"version": 1, "version": 1'))),
    each("a lone surrogate", utf8(json.replace('"name": "', '"name": "\\ud800'))),
    each("a zero character", utf8(json.replace('"name": "', '"name": "\\u0000'))),
    each("control characters", utf8(json.replace('"name": "', '"name": "\\u0007\\u001b[31m'))),
    each("a name to the left", utf8(json.replace('"name": "', '"name": "\\u202egnis'))),
    each("a name of 10,000", utf8(json.replace('"name": "', `"name": "${"x".repeat(10_000)}`))),
    each("a name of marks", utf8(json.replace('"name": "', `"name": "${"\u0301".repeat(60)}`))),
    each("names that are numbers", utf8(json.replaceAll(/"material": "[^"]*"/g, '"material": 7'))),
    each("markup", utf8(json.replace('"name": "', '"name": "<script>alert(1)</script>'))),
    each("a formula as a name", utf8(row("=HYPERLINK(0),base,@SUM(1),1,6"))),
    each("a quotation that never ends", utf8(row('"Slack,base,Quartz,1,6'))),
    each("a quotation inside", utf8(row('Sl"ack,base,Quartz,1,6'))),
    each("a cell behind a quotation", utf8(row('"Slack"x,base,Quartz,1,6'))),
    each("too many cells", utf8(row("Slack,base,Quartz,1,5,6,7,8"))),
    each("a column twice", utf8("recipe,recipe,material,amount\nA,B,Quartz,1")),
    each("an unknown column", utf8("recipe,material,amount,kiln\nA,Quartz,1,big")),
    each("no column known", utf8("a,b,c\n1,2,3")),
    each("only a heading", utf8("recipe,material,amount,cone")),
    each("100,000 commas", utf8(",".repeat(100_001))),
    each("columns without end", utf8(`recipe,material,amount${",".repeat(5000)}\n${recipes}`)),
    each("100,000 rows", utf8(`recipe,material,amount,cone\n${"A,Quartz,1,6\n".repeat(100_000)}`)),
    each(
      "10,000 recipes",
      utf8(
        `recipe,material,amount,cone\n${Array.from({ length: 10_000 }, (_, at) => `R${at},Quartz,1,6`).join("\n")}`,
      ),
    ),
    each("10,000 lines", utf8(`recipe,material,amount,cone\n${"A,Quartz,1,6\n".repeat(10_000)}`)),
    each(
      "1,000 powders",
      utf8(
        `recipe,material,amount,cone\n${Array.from({ length: 1000 }, (_, at) => `A,P${at},1,6`).join("\n")}`,
      ),
    ),
    each("cones that are numbers", utf8(row("Slack,base,Quartz,1,6.5"))),
    each(
      "cones the wrong way round",
      utf8("recipe,material,amount,cone,coneHigh\nA,Quartz,1,6,04"),
    ),
    each("a thousand or one", utf8(row('Slack,base,Quartz,"1,200",6'))),
    each("an oxide nobody reports", utf8("material,source,FeO\nQuartz,Sheet,3")),
    each("over a hundred percent", utf8("material,source,SiO2\nQuartz,Sheet,130")),
    each(
      "a loss of more than all",
      utf8("material,source,SiO2,lossOnIgnition\nQuartz,Sheet,1,120"),
    ),
    each("a ± of nothing", utf8("material,source,SiO2,± Al2O3\nQuartz,Sheet,90,2")),
    each("formula and oxides", utf8("material,source,SiO2,formula\nQuartz,Sheet,90,SiO2")),
    each(
      "a formula without end",
      utf8(`material,source,formula\nQuartz,Sheet,${"(".repeat(190)}Si`),
    ),
    each("a day that is none", utf8(analyses.replace("2026-03-01", "2026-02-30"))),
    each("an empty zip", zipSync([])),
    each("a zip of something else", zipSync([["readme.txt", utf8("hello")]])),
    each("a zip with a way out", zipSync([["../../etc/passwd", utf8("x")]])),
    each("a zip with a root", zipSync([["/etc/passwd", utf8("x")]])),
    each("a zip with a drive", zipSync([["C:\\windows\\x", utf8("x")]])),
    each("a zip in a zip", zipSync([["library.zip", zip]])),
    each(
      "a zip with a name twice",
      zipSync([
        ["manifest.json", utf8("{}")],
        ["manifest.json", utf8("{}")],
      ]),
    ),
    each("a zip whose manifest is no JSON", zipSync([["manifest.json", utf8("nope")]])),
    each("a zip whose manifest is deep", zipSync([["manifest.json", utf8("[".repeat(100_000))]])),
    each(
      "a bomb",
      zipSync(
        [
          ["recipes.jsonl", Buffer.alloc(30_000_000)],
          ["manifest.json", utf8("{}")],
        ],
        { deflate: true },
      ),
    ),
    each("an encrypted file", zipSync([["manifest.json", utf8("{}")]], { flags: 1 })),
    each("a wrong sum", zipSync([["manifest.json", utf8("{}")]], { crc: 1 })),
    each("a lying size", zipSync([["manifest.json", utf8("{}")]], { lie: 4_000_000_000 })),
    each("an unknown packing", zipSync([["manifest.json", utf8("{}")]], { method: 99 })),
    each("half a zip", zip.subarray(0, zip.length >> 1)),
    each("a zip without its end", zip.subarray(0, zip.length - 22)),
    each("a zip behind noise", Buffer.concat([utf8("PKnoise"), zip])),
    each("the letters PK", utf8("PK")),
  ];
}

const bits = [
  ...[
    '"',
    ",",
    ";",
    "\t",
    "\n",
    "\r",
    "{",
    "}",
    "[",
    "]",
    "\\",
    ":",
    "\0",
    "\u202e",
    "\ud83d",
    "=",
    "+",
    "-",
  ],
  ...[
    "null",
    "true",
    "1e999",
    "-1",
    "NaN",
    "__proto__",
    "04",
    "½",
    "₂",
    "±",
    "SiO2",
    '"":""',
    "\\ud800",
    "9".repeat(60),
  ],
];

/** One of the good files made crooked: cut, flipped, doubled, swapped or with something put into it. */
export function mutated(good: Buffer, random: Random): Buffer {
  const at = () => Math.floor(random() * (good.length + 1));
  let bytes = good;
  const times = 1 + Math.floor(random() * 3);
  for (let time = 0; time < times; time += 1) {
    const [one, other] = [at(), at()].sort((a, b) => a - b) as [number, number];
    const end = Math.min(other, one + 40);
    const kind = Math.floor(random() * 6);
    if (kind === 0) bytes = bytes.subarray(0, one);
    else if (kind === 1) {
      bytes = Buffer.from(bytes);
      if (one < bytes.length) bytes[one] = Math.floor(random() * 256);
    } else if (kind === 2) bytes = Buffer.concat([bytes.subarray(0, one), bytes.subarray(end)]);
    else if (kind === 3)
      bytes = Buffer.concat([
        bytes.subarray(0, end),
        bytes.subarray(one, end),
        bytes.subarray(end),
      ]);
    else {
      const bit = bits[Math.floor(random() * bits.length)] ?? "";
      bytes = Buffer.concat([bytes.subarray(0, one), utf8(bit), bytes.subarray(one)]);
    }
  }
  return bytes;
}
