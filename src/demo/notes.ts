import type { Who } from "./people.ts";

type DemoWords = { by: Who; at: string; text: string };

/** A note in the voice of whoever writes it; `line` names the material whose line it hangs on. */
export type DemoNote = DemoWords & {
  glaze: string;
  number: number;
  line?: string;
  /** An objection, and how whoever raised it closed it where they have. */
  objects?: { closed?: DemoWords };
  replies?: readonly DemoWords[];
};

export const demoNotes: readonly DemoNote[] = [
  {
    glaze: "Slack Water",
    number: 1,
    by: "tam",
    at: "2026-01-27T10:20:00Z",
    text: "Crazed on the stoneware tile by the Saturday, fine on porcelain. Alkali share 0.32 looks like the reason. I would not go on with this one for cups.",
  },
  {
    glaze: "Slack Water",
    number: 1,
    line: "Soda feldspar",
    by: "ines",
    at: "2026-01-28T08:30:00Z",
    text: "Start here. Ten parts out, quartz in.",
  },
  {
    glaze: "Slack Water",
    number: 2,
    by: "rukmini",
    at: "2026-03-02T19:15:00Z",
    text: "Out of Gannet on Sunday: no crazing after a week in the window, and I poured the kettle over it twice. Still only two tiles, mind.",
  },
  {
    glaze: "Slack Water",
    number: 3,
    line: "Talc",
    by: "sefton",
    at: "2026-04-24T13:05:00Z",
    text: "If anybody else finds white lumps: that is the talc sitting on top. I wet it in a jug of hot water the evening before and pour that in first, and then it behaves.",
  },
  {
    glaze: "Ebb Green",
    number: 1,
    line: "Copper carbonate",
    by: "tam",
    at: "2026-03-05T10:40:00Z",
    text: "At three percent the screen asks for a leach report on copper. Please either have one made or put this down as decorative.",
    replies: [
      { by: "jonah", at: "2026-03-06T21:00:00Z", text: "Fair. Will halve it and mark it." },
    ],
  },
  {
    glaze: "Mackerel Sky",
    number: 1,
    line: "Rutile",
    by: "jonah",
    at: "2026-02-12T20:25:00Z",
    text: "Five is a lot. Mine went to mustard where two coats met.",
  },
  {
    glaze: "Mackerel Sky",
    number: 2,
    by: "marta",
    at: "2026-09-17T18:50:00Z",
    text: "Is the second coat the whole pot or only the top? I did the whole pot and it ran onto the shelf. Sorry about the shelf.",
    replies: [
      {
        by: "sefton",
        at: "2026-09-18T09:35:00Z",
        text: "Only to the shoulder, Marta, and never mind the shelf, we have all paid that toll. Come on Thursday and we will dip one together; the trick is counting aloud.",
      },
    ],
  },
  {
    glaze: "Mackerel Sky",
    number: 2,
    by: "jonah",
    at: "2026-10-02T20:15:00Z",
    text: "Two of my three bowls crazed where it pooled inside, after a week of washing up. I want to see a thick tile before anybody puts this in a bowl.",
    objects: {},
    replies: [
      {
        by: "sefton",
        at: "2026-10-03T09:10:00Z",
        text: "You may be right. @Jonah, bring me the worst one on Thursday and I will dip a tile as thick as that and put it in the window.",
      },
    ],
  },
  {
    glaze: "Wrack Line",
    number: 1,
    by: "rukmini",
    at: "2026-03-12T19:45:00Z",
    text: "Tried it over Slack Water on the outside of a jar and it broke into gold spots. They are two glazes on one pot, so that wants tiles of its own before anybody calls it anything.",
  },
  {
    glaze: "Wrack Line",
    number: 1,
    by: "rukmini",
    at: "2026-08-20T18:25:00Z",
    text: "A slice of lemon overnight left a dull ring on mine. I would hold this one back from cups.",
    objects: {
      closed: {
        by: "rukmini",
        at: "2026-09-03T19:40:00Z",
        text: "Mine was the cup out of Wren, taken out before its cone was down. The one from Gannet kept its gloss over the same night, so this is no reason any more.",
      },
    },
  },
  {
    glaze: "Sandpiper Matt",
    number: 1,
    by: "rukmini",
    at: "2026-04-01T18:10:00Z",
    text: "My spoon left grey lines on it that would not scrub off. Lovely to hold otherwise.",
  },
  {
    glaze: "Sandpiper Matt",
    number: 1,
    line: "Dolomite",
    by: "tam",
    at: "2026-04-02T10:00:00Z",
    text: "Magnesia 0.29 and hardly any boron. I take it down next time, and count the alumina again.",
  },
  {
    glaze: "Little Tern",
    number: 1,
    by: "marta",
    at: "2026-09-10T19:20:00Z",
    text: "Mixed this in class with the sheet, the first glaze I ever weighed. It came out clear! One pinhole.",
  },
  {
    glaze: "Common Tern",
    number: 1,
    by: "marta",
    at: "2026-11-12T19:05:00Z",
    text: "@Ines, may I put this on the inside of a mug, or only on the outside until somebody has looked at it?",
  },
  {
    glaze: "Arctic Tern",
    number: 1,
    line: "Tin oxide",
    by: "ines",
    at: "2026-06-29T08:45:00Z",
    text: "Tin is the dearest thing in the room. Trying three with more zircon.",
  },
  {
    glaze: "Black Tern",
    number: 1,
    by: "sefton",
    at: "2026-06-18T14:30:00Z",
    text: "On the porcelain it goes the brown of strong tea at the lip and I should like to keep that. On stoneware it is simply black, and a customer would call it a good plain black.",
  },
  {
    glaze: "Haar",
    number: 1,
    line: "Barium carbonate",
    by: "ines",
    at: "2026-03-10T20:00:00Z",
    text: "Cupboard key signed out and back. Spill wiped wet, rags in the marked bin.",
  },
  {
    glaze: "Haar",
    number: 1,
    by: "tam",
    at: "2026-04-09T10:15:00Z",
    text: "Very fine on the tall piece. It stays decorative only, however good it looks on a bowl.",
  },
  {
    glaze: "Groyne Lichen",
    number: 1,
    by: "marta",
    at: "2026-09-25T18:35:00Z",
    text: "Why do the amounts add up to fifty? I nearly weighed half a batch.",
  },
  {
    glaze: "Groyne Lichen",
    number: 1,
    line: "Loft stain coral",
    by: "tam",
    at: "2026-04-16T11:05:00Z",
    text: "No analysis, so nothing on this page can speak for what is in it.",
  },
  {
    glaze: "Starling",
    number: 1,
    by: "ines",
    at: "2026-04-15T08:20:00Z",
    text: "Wren only. I have written it on the kiln as well.",
  },
  {
    glaze: "Sluice Amber",
    number: 1,
    line: "Colemanite",
    by: "jonah",
    at: "2026-05-14T20:40:00Z",
    text: "New tub spits worse. Gone from the suppliers anyway.",
  },
  {
    glaze: "Curlew",
    number: 1,
    line: "Colemanite",
    by: "ines",
    at: "2026-05-12T09:00:00Z",
    text: "About 400 g left. After that this needs the frit and a new set of tiles.",
  },
];
