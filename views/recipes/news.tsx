import type { NewsWords } from "./news-words.ts";

type NewsProps = { slug: string; since: number };

/**
 * Where an open page says what others do meanwhile. It stays empty without the script, and nothing
 * but this element is ever changed by it.
 */
export const News = ({ slug, since }: NewsProps) => (
  <div
    class="news screen-only"
    aria-live="polite"
    data-news={`/recipes/${slug}/news?since=${since}`}
    data-every="20000"
  />
);

export type NewsLine = NewsWords & { by: string | null };

/** What is new, a line each, with the way to it; nothing new is an empty element, which has a tag too. */
export const NewsLines = ({ lines }: { lines: readonly NewsLine[] }) => (
  <div class="news-lines">
    {lines.map(({ by, says, href, shows }) => (
      <p>
        {by ?? "The program"} {says}:{" "}
        <a class="news-show" href={href}>
          show<span class="hidden-words"> {shows}</span>
        </a>
      </p>
    ))}
  </div>
);
