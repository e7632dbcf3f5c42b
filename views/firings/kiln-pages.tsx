const pages = [
  { href: "/tiles", name: "Tiles" },
  { href: "/firings", name: "Firings" },
  { href: "/kilns", name: "Kilns" },
  { href: "/bodies", name: "Bodies" },
  { href: "/trials", name: "Trials" },
] as const;

/** The lists of the kiln room, so that each leads to the others. */
export const KilnPages = ({ here }: { here: (typeof pages)[number]["href"] }) => (
  <nav class="kiln-pages" aria-label="The kiln room">
    <ul class="rooms">
      {pages.map(({ href, name }) => (
        <li>
          <a href={href} aria-current={href === here ? "true" : undefined}>
            {name}
          </a>
        </li>
      ))}
    </ul>
  </nav>
);
