import type { Child } from "hono/jsx";

/** The room a page belongs to; the navigation marks it. */
export type Here =
  | "library"
  | "shelf"
  | "kiln"
  | "buckets"
  | "work-it-out"
  | "waiting"
  | "people"
  | "events"
  | "account"
  | "none";

export type Viewer = { id: string; name: string; role: "member" | "reviewer" | "manager" };

export type LayoutProps = {
  title: string;
  studio: string;
  viewer: Viewer | undefined;
  here: Here;
  /** How much waits for who reads; nothing is said of it to a visitor. */
  waiting?: number | undefined;
  /** The page stands alone: nothing leads on from it to other rooms. */
  alone?: boolean | undefined;
  /** What the reader chose, whatever their device is set to. */
  theme?: "system" | "light" | "dark" | undefined;
  /** Where all stylesheets are. */
  stylesheet: string;
  children?: Child;
  notice?: string | undefined;
};

type Room = { href: string; name: string; here: Here };

const rooms: readonly Room[] = [
  { href: "/recipes", name: "Library", here: "library" },
  { href: "/materials", name: "Shelf", here: "shelf" },
  { href: "/firings", name: "Kiln", here: "kiln" },
  { href: "/chemistry", name: "Work it out", here: "work-it-out" },
];

const memberRooms: readonly Room[] = [{ href: "/buckets", name: "Buckets", here: "buckets" }];

const managerRooms: readonly Room[] = [
  { href: "/people", name: "People", here: "people" },
  { href: "/events", name: "Record", here: "events" },
];

// The page's own stylesheet stands in for the one htmx would otherwise add by script.
const htmxConfig = JSON.stringify({ includeIndicatorCSS: false, mode: "same-origin" });

/** The whole document round a page: head, header, navigation, main and footer. */
export const Layout = ({
  title,
  studio,
  viewer,
  here,
  waiting,
  alone,
  theme = "system",
  stylesheet,
  children,
  notice,
}: LayoutProps) => (
  <html lang="en" data-theme={theme === "system" ? undefined : theme}>
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content={theme === "system" ? "light dark" : theme} />
      <meta name="htmx-config" content={htmxConfig} />
      <title>{`${title} · ${studio}`}</title>
      <link rel="icon" href="/assets/favicon.svg" type="image/svg+xml" />
      <link rel="apple-touch-icon" href="/icons/apple-touch-180.png" />
      <link rel="manifest" href="/manifest.webmanifest" />
      {(["light", "dark"] as const)
        .filter((each) => theme === "system" || theme === each)
        .map((each) => (
          <meta
            name="theme-color"
            content={paper[each]}
            media={theme === "system" ? `(prefers-color-scheme: ${each})` : undefined}
          />
        ))}
      <link rel="stylesheet" href={stylesheet} />
      <script src="/assets/htmx.min.js" defer />
      <script src="/assets/app.js" defer />
      <script src="/assets/going-on.js" defer />
    </head>
    <body>
      <a class="skip" href="#main">
        Skip to the page
      </a>
      {alone ? (
        <Nameplate studio={studio} />
      ) : (
        <Masthead studio={studio} viewer={viewer} here={here} waiting={waiting} />
      )}
      <main id="main" tabindex={-1} data-viewer={viewer?.id}>
        {notice ? (
          <p class="notice" role="status">
            {notice}
          </p>
        ) : null}
        {children}
      </main>
      <Colophon alone={alone} signedIn={viewer !== undefined} />
    </body>
  </html>
);

/** As in `public/tokens.css`: the browser's own bar is of the page's colour. */
const paper = { light: "#eaf0ea", dark: "#121815" };

const Nameplate = ({ studio }: { studio: string }) => (
  <header class="masthead">
    <p class="masthead-name">
      <span class="masthead-plate">
        <span class="masthead-studio">{studio}</span>{" "}
        <span class="masthead-program">Common Bucket</span>
      </span>
    </p>
  </header>
);

type MastheadProps = Pick<LayoutProps, "studio" | "viewer" | "here" | "waiting">;

const Masthead = ({ studio, viewer, here, waiting }: MastheadProps) => (
  <header class="masthead">
    <p class="masthead-name">
      <a href="/">
        <span class="masthead-studio">{studio}</span>{" "}
        <span class="masthead-program">Common Bucket</span>
      </a>
    </p>
    <nav aria-label="Rooms">
      <ul class="rooms">
        {roomsOf(viewer).map((room) => (
          <li>
            <RoomLink {...room} current={room.here === here} />
          </li>
        ))}
        {viewer ? (
          <li>
            <RoomLink href="/waiting" name="Waiting" count={waiting} current={here === "waiting"} />
          </li>
        ) : null}
        <li class="rooms-account">
          {viewer ? (
            <RoomLink href="/account" name={viewer.name} current={here === "account"} />
          ) : (
            <RoomLink href="/session/new" name="Sign in" current={here === "account"} />
          )}
        </li>
      </ul>
    </nav>
  </header>
);

const roomsOf = (viewer: Viewer | undefined): readonly Room[] => [
  ...rooms,
  ...(viewer ? memberRooms : []),
  ...(viewer?.role === "manager" ? managerRooms : []),
];

type RoomLinkProps = { href: string; name: string; count?: number | undefined; current: boolean };

const RoomLink = ({ href, name, count = 0, current }: RoomLinkProps) => (
  <a href={href} aria-current={current ? "page" : undefined}>
    {name}
    {count > 0 ? (
      <>
        {" "}
        <span class="rooms-count">{count}</span>
      </>
    ) : null}
  </a>
);

type ColophonProps = Pick<LayoutProps, "alone"> & { signedIn: boolean };

const Colophon = ({ alone, signedIn }: ColophonProps) => (
  <footer class="colophon">
    <p>
      Chemistry and tests inform; nobody here certifies a glaze for food. Dry materials make dust
      that harms lungs: keep them damp, and wear a respirator that fits.
    </p>
    <ul>
      {alone ? null : (
        <li>
          <a href="/start">What are you making?</a>
        </li>
      )}
      <li>
        <a href="/guide">Guide</a>
      </li>
      <li>
        <a href="/cautions">Cautions</a>
      </li>
      <li>
        <a href={signedIn ? "/account/settings" : "/reading"}>
          How to read this: units, names, light or dark
        </a>
      </li>
      <li>
        <a href="/about">About this library</a>
      </li>
      <li>
        <a href="/about#source">Source code, free under the AGPL</a>
      </li>
    </ul>
  </footer>
);
