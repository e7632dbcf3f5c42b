import { When } from "../people/when.tsx";

export type WaitingItem = {
  kind: WaitingKind;
  says: string;
  href: string;
  at: Date;
  by: string | null;
};

export type WaitingKind =
  | "objection"
  | "objection-answered"
  | "offer"
  | "review"
  | "another-look"
  | "bucket"
  | "bucket-on-hold"
  | "bucket-report"
  | "mention"
  | "analysis"
  | "recall-used"
  | "recall"
  | "stock-low";

/** What can hurt comes first. */
const groups: readonly { kind: WaitingKind; title: string }[] = [
  { kind: "recall-used", title: "Recalled: what you used" },
  { kind: "recall", title: "Recalls to see to" },
  { kind: "bucket", title: "Buckets that are not approved" },
  { kind: "bucket-on-hold", title: "Buckets on hold" },
  { kind: "bucket-report", title: "Reports of buckets" },
  { kind: "another-look", title: "Your recipes that need another look" },
  { kind: "objection", title: "Objections to your recipes" },
  { kind: "objection-answered", title: "Replies to objections of yours" },
  { kind: "review", title: "Reviews that were asked for" },
  { kind: "offer", title: "Changes that were offered" },
  { kind: "mention", title: "Notes that mention you" },
  { kind: "analysis", title: "Analyses to put in use" },
  { kind: "stock-low", title: "Powders that are low" },
];

/** What waits for whoever reads, by kind; `of` so many, where that is more than one looks through. */
export const WaitingPage = ({ items, of }: { items: readonly WaitingItem[]; of: number }) => (
  <section>
    <h1>What waits for you</h1>
    {of > items.length ? (
      <p>
        These are {items.length} of {of}: what may hurt somebody, then the newest. The others come
        as you see to these.
      </p>
    ) : null}
    {items.length === 0 ? (
      <p>
        Nothing waits for you. Objections, offers, reviews and notes that need your answer come
        here, and go when you have given it.
      </p>
    ) : (
      groups.map(({ kind, title }) => (
        <Group title={title} items={items.filter((item) => item.kind === kind)} />
      ))
    )}
    <p>
      <a href="/account#telling">Be told by mail or in a feed reader</a>
    </p>
  </section>
);

const Group = ({ title, items }: { title: string; items: readonly WaitingItem[] }) =>
  items.length === 0 ? null : (
    <>
      <h2>{title}</h2>
      <ul class="waiting">
        {items.map(({ says, href, at }) => (
          <li>
            <a href={href}>{says}</a>
            <span class="waiting-since">
              since <When at={at} clock />
            </span>
          </li>
        ))}
      </ul>
    </>
  );
