/** Tells the browser that the form kept under this draft key has been taken, so it may forget it. */
export const DraftDone = ({ draft }: { draft: string }) => (
  <meta name="draft-done" content={draft} />
);
