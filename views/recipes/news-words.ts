export type Happened = {
  subject: string;
  subjectId: string;
  kind: string;
  detail: Record<string, unknown>;
};

/** What happened, in words that follow a name; where it is shown; and what is shown there. */
export type NewsWords = { says: string; href: string; shows: string };

type Wording = (happened: Happened, recipe: string) => NewsWords;

const note =
  (says: string, which = "note"): Wording =>
  ({ detail }) => ({ says, href: `/notes/${detail[which]}`, shows: "the note" });

const revision =
  (says: (detail: Record<string, unknown>) => string): Wording =>
  ({ detail }, recipe) => ({
    says: says(detail),
    href: `${recipe}/revisions/${detail.number}`,
    shows: `revision ${detail.number}`,
  });

const itself =
  (says: string): Wording =>
  (_, recipe) => ({ says, href: recipe, shows: "the recipe" });

const tile =
  (says: string): Wording =>
  ({ subjectId }) => ({ says, href: `/tiles/${subjectId}`, shows: "the tile" });

const test =
  (says: string): Wording =>
  ({ subjectId }) => ({ says, href: `/tests/${subjectId}`, shows: "the test" });

const wordings: Partial<Record<string, Wording>> = {
  "recipe: revised": revision(({ number }) => `published revision ${number}`),
  "recipe: noted": (happened, recipe) =>
    note(happened.detail.blocking === true ? "raised an objection" : "wrote a note")(
      happened,
      recipe,
    ),
  "recipe: replied": note("replied to a note"),
  "recipe: note edited": note("changed the words of a note"),
  "recipe: objection closed": note("closed an objection", "reply"),
  "recipe: objection overruled": note("overruled an objection", "reply"),
  "recipe: withdrawn": itself("withdrew it"),
  "recipe: put forward again": itself("put it forward again"),
  "recipe: shown to": itself("changed who may see it"),
  "recipe: review asked for": revision(({ number }) =>
    number === undefined ? "asked for a review" : `asked for a review of revision ${number}`,
  ),
  "recipe: approved": revision(({ number }) => `approved revision ${number}`),
  "recipe: remarked on": revision(({ number }) => `reviewed revision ${number}`),
  "recipe: standing changed": revision(
    ({ number, after }) => `found that revision ${number} counts as ${after} now`,
  ),
  "tile: tile added": tile("put a tile on record"),
  "tile: tile withdrawn": tile("withdrew a tile"),
  "tile: photo added": tile("hung a picture on a tile"),
  "tile: colour added": tile("put a tile's colour on record"),
  "tile: photo removed": tile("removed a picture from a tile"),
  "test: test added": itself("put a test on record"),
  "test: test withdrawn": itself("withdrew a test"),
  "test: report added": test("put a laboratory's report with a test"),
  "test: test photo added": test("hung a picture beside a test"),
  "test: test photo removed": test("removed a picture of a test"),
};

/** An objecting review puts a note on the recipe, and that is told of already. */
const toldOfOtherwise = new Set(["recipe: objected to"]);

/** What to say of something that happened on a recipe, or undefined where another line says it. */
export function newsWords(happened: Happened, recipe: string): NewsWords | undefined {
  const name = `${happened.subject}: ${happened.kind}`;
  if (toldOfOtherwise.has(name)) return undefined;
  return (wordings[name] ?? itself(`put something on record: ${happened.kind}`))(happened, recipe);
}
