import { expect, it } from "vitest";
import { Layout, type Viewer } from "../../views/layout.tsx";

const studio = "Saltmarsh Lane Studio";
const ines: Viewer = { id: "ines", name: "Ines Okafor", role: "manager" };
const rukmini: Viewer = { id: "rukmini", name: "Rukmini Vale", role: "member" };

const page = (viewer: Viewer | undefined, notice?: string) =>
  String(
    <Layout
      title="Slack Water"
      studio={studio}
      viewer={viewer}
      here="library"
      notice={notice}
      stylesheet="/assets/all.css"
    >
      <h1>Slack Water</h1>
    </Layout>,
  );

it("shows people and the record to a manager alone", () => {
  expect(page(ines)).toContain('href="/people"');
  expect(page(rukmini)).not.toContain('href="/people"');
  expect(page(undefined)).not.toContain('href="/events"');
});

it("offers a visitor to sign in and a person their account", () => {
  expect(page(undefined)).toContain('href="/session/new"');
  expect(page(rukmini)).toMatch(/href="\/account"[^>]*>Rukmini Vale</);
});

it("marks the room the page is in, and only that", () => {
  expect(page(ines).match(/<a href="[^"]+" aria-current="page">[^<]+/g)).toEqual([
    '<a href="/recipes" aria-current="page">Library',
  ]);
});

it("carries nothing that a strict content security policy would refuse", () => {
  const html = page(ines, "Published.");

  expect(html).not.toMatch(/\sstyle=|<style|\son[a-z]+=|hx-on/);
  expect(html.match(/<script[^>]*>/g)?.every((script) => script.includes('src="/assets/'))).toBe(
    true,
  );
});

it("tells htmx to add no style of its own", () => {
  expect(page(undefined)).toMatch(
    /name="htmx-config" content="[^"]*includeIndicatorCSS&quot;:false/,
  );
});

it("says a notice at the top of the page, and no empty one", () => {
  expect(page(ines, "Revision 4 is published.")).toMatch(
    /<main[^>]*><p[^>]*role="status">Revision 4/,
  );
  expect(page(ines)).not.toContain('role="status"');
});

it("cautions on every page that nobody certifies a glaze for food", () => {
  expect(page(undefined)).toMatch(/<footer.*nobody here certifies a glaze for food.*<\/footer>/s);
});
