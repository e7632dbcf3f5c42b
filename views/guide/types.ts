export type GuideSection = { id: string; title: string; says: readonly string[] };

/** One page of the guide. A `worked` number is said in words; a test works each of them out anew. */
export type GuidePage = {
  slug: string;
  title: string;
  /** What the page is about, in one line of the contents. */
  short: string;
  sections: readonly GuideSection[];
  worked?: readonly string[];
  /** Who comes before this page, where the work can hurt somebody. */
  defers?: string;
};
