export const sourceWords = {
  instrument: "instrument",
  camera: "camera: for comparing, not for measuring",
} as const;

export type ColourSource = keyof typeof sourceWords;

export type ShownColour = {
  lightness: number;
  a: number;
  b: number;
  from: ColourSource;
  by: { name: string };
  at: Date;
  photoId: string | null;
};

/** The newest of each kind that was read of a tile. */
export type ShownColours = Readonly<Partial<Record<ColourSource, ShownColour>>>;

export const noColours = (colours: ShownColours): boolean => !colours.instrument && !colours.camera;

/** "L* 52.10, a* −3.40, b* 11.25". */
export const labWords = ({ lightness, a, b }: Pick<ShownColour, "lightness" | "a" | "b">): string =>
  `L* ${figure(lightness)}, a* ${figure(a)}, b* ${figure(b)}`;

const figure = (value: number): string => {
  const words = value.toFixed(2);
  return words === "-0.00" ? "0.00" : words.replace("-", "−");
};
