/** Where a revision stands, in the words people read. */
export type StandingIs = "draft" | "in review" | "approved" | "needs another look" | "withdrawn";

/** What a glaze is meant for. */
export type UseIs = "functional" | "decorative";

const frames: Readonly<Record<StandingIs, string>> = {
  draft: "draft",
  "in review": "in-review",
  approved: "approved",
  "needs another look": "another-look",
  withdrawn: "withdrawn",
};

const approvedFor: Readonly<Record<UseIs, string>> = {
  functional: "for functional ware",
  decorative: "as decorative only",
};

type StandingProps = { is: StandingIs; for?: UseIs | undefined };

/**
 * The standing as a word in a frame. The frame's shape differs for each, so that it can be told
 * without colour; what it was approved for follows the frame.
 */
export const Standing = ({ is, for: what }: StandingProps) => (
  <span class="standing">
    <span class={`standing-frame standing-${frames[is]}`}>{is}</span>
    {what ? <span class="standing-for"> {approvedFor[what]}</span> : null}
  </span>
);

type UseProps = { use: UseIs; long?: boolean | undefined };

/**
 * What the glaze is meant for. The decorative mark never stands without saying what it rules out;
 * `long` says it in full.
 */
export const Use = ({ use, long }: UseProps) =>
  use === "decorative" ? <Decorative long={long} /> : <Functional long={long} />;

const Decorative = ({ long }: { long?: boolean | undefined }) =>
  long ? (
    <p class="use-long">
      <strong class="use use-decorative">Decorative only</strong>{" "}
      <span>
        Keep it off every surface that food, drink, lips or cutlery touch: not inside the pot, not
        on the rim or within 20 mm of it, and not on spoon rests, lidded jars or pet bowls. A glaze
        that crazes or crackles is always decorative only.
      </span>
    </p>
  ) : (
    <span class="use-short">
      <strong class="use use-decorative">Decorative only</strong>{" "}
      <span class="use-means">Nowhere food, drink, lips or cutlery touch</span>
    </span>
  );

const Functional = ({ long }: { long?: boolean | undefined }) =>
  long ? (
    <p class="use-long">
      <strong class="use use-functional">Meant for functional ware</strong>{" "}
      <span>
        Meant is not proven: read which tests were made, when, and on which clay body. They hold for
        those pieces, fired as they were fired; another kiln or body needs its own.
      </span>
    </p>
  ) : (
    <span class="use use-functional">Meant for functional ware</span>
  );
