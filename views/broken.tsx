type BrokenProps = {
  title: string;
  says: string;
  /** Where to try again. */
  again: string;
};

/** What is said where not even the studio's name could be read: a page that needs nothing else. */
export const Broken = ({ title, says, again }: BrokenProps) => (
  <html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{title}</title>
    </head>
    <body>
      <main>
        <h1>{title}</h1>
        <p>{says}</p>
        <p>
          <a href={again}>Try again</a>
        </p>
      </main>
    </body>
  </html>
);
