import type { ShownStanding } from "../reviews/reviews.tsx";

export type ShownApproved = { number: number; for: "functional" | "decorative" };

type MugAnswerProps = {
  recipe: { slug: string };
  revision: { number: number; use: "functional" | "decorative" };
  standing: ShownStanding;
  approved: ShownApproved | null;
};

/** A straight answer to "may I use it on a mug?"; what it rests on follows on the page. */
export const MugAnswer = ({ recipe, revision, standing, approved }: MugAnswerProps) => {
  if (standing.is === "withdrawn") return <>No. This recipe was withdrawn.</>;
  if (standing.is === "approved" && standing.for === "functional")
    return (
      <>
        This studio approved it for functional ware, on the tiles and tests below and for how they
        were fired.
      </>
    );
  if (revision.use === "decorative") return <>No: it is decorative only.</>;
  const other =
    approved && approved.for === "functional" && approved.number !== revision.number ? (
      <>
        {" "}
        <a href={`/recipes/${recipe.slug}/revisions/${approved.number}`}>
          Revision {approved.number}
        </a>{" "}
        is approved for functional ware.
      </>
    ) : null;
  if (standing.is === "needs another look")
    return <>Not now: what it was approved on no longer holds.{other}</>;
  if (standing.is === "approved")
    return <>No: it was approved as decorative only, whatever it is meant for.{other}</>;
  return <>Not yet: nobody has approved this revision for functional ware.{other}</>;
};
