// The recipes that were seen last, for where there is no network: whole pages as everybody sees them,
// asked for without who is signed in, with their pictures at the least width and what they look like.
// biome-ignore lint/correctness/noUnusedVariables: sw.js asks it
const recipes = (() => {
  const store = "seen-recipes";
  const most = 30;
  const list = "/offline";
  const isRecipe = (path) => /^\/recipes\/[a-z0-9-]+(\/revisions\/\d+)?$/.test(path);
  const pathOf = ({ url }) => new URL(url).pathname;

  // A copy was shown: what else is kept may be out of date too.
  let behind = false;

  // Rises when all is forgotten, so that what was under way then is not kept after.
  let turn = 0;

  const forget = () => {
    turn += 1;
    return caches.delete(store);
  };

  const asEverybody = (path) =>
    fetch(path, { credentials: "omit", cache: "no-store", redirect: "manual" });

  /** What a page shows beside its words. */
  const partsOf = (html) => {
    const assets = html.match(/\/(assets|icons)\/[\w.-]+/g) ?? [];
    const pictures = [...html.matchAll(/\/photos\/([0-9a-f]{64})\/\d/g)];
    return new Set([...assets, ...pictures.map(([, sha256]) => `/photos/${sha256}/200`)]);
  };

  const kept = async () => {
    const cache = await caches.open(store);
    const pages = (await cache.keys()).filter((request) => isRecipe(pathOf(request)));
    const read = pages.map(async (request) => {
      const page = await cache.match(request);
      const { headers } = page;
      const [seen, asOf] = [Number(headers.get("X-Seen")), new Date(headers.get("X-As-Of"))];
      return { path: pathOf(request), seen, asOf, html: await page.text() };
    });
    return (await Promise.all(read)).sort((one, other) => other.seen - one.seen);
  };

  const put = async (cache, path, { answer, html, seen }) => {
    const headers = new Headers(answer.headers);
    // The bytes are unpacked here, and the copy stands for whoever asks.
    for (const name of ["Content-Encoding", "Content-Length", "Vary", "ETag"]) headers.delete(name);
    headers.set("X-Seen", String(seen));
    headers.set("X-As-Of", answer.headers.get("Date") ?? new Date().toUTCString());
    await cache.put(path, new Response(html, { status: 200, headers }));
  };

  const addMissing = async (cache, parts) => {
    for (const part of parts) {
      if (await cache.match(part)) continue;
      const answer = await fetch(part, { credentials: "omit" }).catch(() => null);
      if (answer?.status === 200) await cache.put(part, answer);
    }
  };

  /** Keeps the last ones, and nothing that none of them shows. */
  const prune = async (cache, listed) => {
    const pages = await kept();
    await Promise.all(pages.slice(most).map(({ path }) => cache.delete(path)));
    const shown = [listed, ...pages.slice(0, most).map(({ html }) => html)].map(partsOf);
    const isShown = (path) => path === list || shown.some((parts) => parts.has(path));
    for (const request of await cache.keys()) {
      const path = pathOf(request);
      if (!isRecipe(path) && !isShown(path)) await cache.delete(request);
    }
  };

  const keepList = async (cache) => {
    const answer = await asEverybody(list);
    const html = await answer.text();
    if (answer.status === 200) await put(cache, list, { answer, html, seen: 0 });
    return html;
  };

  /** Keeps a page anew where everybody may see it, and forgets it where that is no longer so. */
  const keep = async (path, seen = Date.now()) => {
    if (!isRecipe(path)) return;
    const own = turn;
    const answer = await asEverybody(path);
    const html = await answer.text();
    if (own !== turn || answer.status >= 500) return;
    const cache = await caches.open(store);
    if (answer.status !== 200 || !html.includes(" data-kept-as=")) await cache.delete(path);
    else {
      await put(cache, path, { answer, html, seen });
      const listed = await keepList(cache);
      await addMissing(cache, new Set([...partsOf(html), ...partsOf(listed)]));
      await prune(cache, listed);
    }
    if (own !== turn) await caches.delete(store);
  };

  /** Keeps what is looked at; after a time without a network, all else that is kept is read anew too. */
  const see = async (path) => {
    await keep(path);
    if (!behind) return;
    behind = false;
    for (const other of await kept()) if (other.path !== path) await keep(other.path, other.seen);
  };

  const clock = new Intl.DateTimeFormat("en-GB", {
    ...{ day: "numeric", month: "long", year: "numeric", timeZone: "UTC" },
    ...{ hour: "2-digit", minute: "2-digit" },
  });
  const dayOf = (date) => `${clock.format(date)} UTC`;

  const page = ({ headers }, html) => new Response(html, { status: 200, headers });

  const stamped = async (copy) => {
    const asOf = dayOf(new Date(copy.headers.get("X-As-Of")));
    const words = `<strong>As of ${asOf}; ask whether it still holds.</strong> The studio cannot be reached, so this is the copy that your browser kept, as everybody sees it. <a href="${list}">What else is kept</a>`;
    const html = await copy.text();
    return page(
      copy,
      html.replace(
        /<main\b[^>]*>/,
        (main) => `${main}<p class="notice" role="status" data-copied="">${words}</p>`,
      ),
    );
  };

  // What is said of a page was written into it by the studio, safe to stand in another one.
  const itemOf = ({ path, asOf, html }) => {
    const [, says = path] = /\bdata-kept-as="([^"]*)"/.exec(html) ?? [];
    return `<li><a href="${path}">${says}</a>, as of ${dayOf(asOf)}</li>`;
  };

  const listed = async (copy) => {
    const items = (await kept()).map(itemOf);
    const html = await copy.text();
    if (items.length === 0) return page(copy, html);
    const whole = `<ul class="kept">${items.join("")}</ul>`;
    return page(
      copy,
      html.replace(/<p data-kept="">[^<]*<\/p>/, () => whole),
    );
  };

  const match = (path) => caches.match(path, { cacheName: store });

  /** The page itself, its copy, or the list of what is kept; `hear` asks the studio. */
  const open = async (request, hear) => {
    const path = pathOf(request);
    const copy = isRecipe(path) ? await match(path) : undefined;
    try {
      const answer = await hear(request, copy !== undefined);
      return path === list && answer.status === 200 ? await listed(answer) : answer;
    } catch (away) {
      behind = true;
      if (copy) return stamped(copy);
      const empty = await match(list);
      if (!empty) throw away;
      return listed(empty);
    }
  };

  const picture = (request) =>
    fetch(request).catch(async (away) => {
      const least = pathOf(request).replace(/[^/]+$/, "200");
      const copy = await match(least);
      if (!copy) throw away;
      return copy;
    });

  return { see, forget, open, picture };
})();
