// Opens a mix again where there is no network, from the copy that its own page keeps. Nothing else
// is answered from here, and nothing is kept here.
const patience = 8_000;

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  const { origin, pathname } = new URL(url);
  if (origin !== location.origin) return;
  if (method !== "GET") {
    // Whoever signs in or out leaves no page of theirs to the next.
    if (/^\/(session|session\/end|people)$/.test(pathname)) {
      event.waitUntil(caches.delete("mix-pages"));
    }
    return;
  }
  const opensMix = mode === "navigate" && /^\/mixes\/[0-9a-f-]{36}$/.test(pathname);
  if (opensMix || pathname.startsWith("/assets/")) event.respondWith(answer(event.request));
});

const answer = async (request) => {
  const kept = await caches.match(request.url, { ignoreVary: true });
  if (!kept) return fetch(request);
  // A network may be there and let nothing through.
  const enough = new AbortController();
  const timer = setTimeout(() => enough.abort(), patience);
  try {
    return await fetch(request, { signal: enough.signal });
  } catch {
    return kept;
  } finally {
    clearTimeout(timer);
  }
};
