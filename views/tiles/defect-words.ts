export const defects = [
  "crazing",
  "shivering",
  "crawling",
  "pinholing",
  "blistering",
  "running",
  "dunting",
  "underfired",
  "overfired",
] as const;

export type Defect = (typeof defects)[number];

/** What each defect looks like, and what usually causes it. Common practice. */
export const defectWords: Readonly<Record<Defect, string>> = {
  crazing:
    "A net of fine cracks: the glaze shrinks more than the body. Often much soda or potash, little silica, or a body fired too low.",
  shivering:
    "Flakes come off the edges: the glaze shrinks less than the body. Often little alkali, much lithia, or a body rich in free silica.",
  crawling:
    "Bare patches where the glaze drew back. Often dust or grease on the bisque, a thick coat, or much clay or zinc that cracked as it dried.",
  pinholing:
    "Small holes. Often gas from the body late in the firing: bisque fired low or fast, a stiff glaze, no hold at the top.",
  blistering:
    "Craters and bubbles. Often fired too hot or put on too thick; or sulphur, fluorine or trapped carbon.",
  running: "It moved down the tile. Often too thick, too hot, or little alumina.",
  dunting:
    "A crack through glaze and body. Often cooled too fast or in a draught, or a glaze that shrinks very differently from the body.",
  underfired:
    "Dry, chalky or not melted through. Often a cold place in the kiln or too low a cone.",
  overfired:
    "Too glassy, thin at the edges, colours washed out, or the body bloated. Often a hot place, too long a hold or too high a cone.",
};
