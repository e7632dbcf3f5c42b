// How the page goes on: where the keyboard is after a part of it changed, and what the browser keeps for
// when there is no network. It stands after app.js, which leads to what was refused first.
(() => {
  // The worker keeps a copy of a recipe that everybody may see, once the page itself is there. Without
  // TLS there is no worker, and whoever saves data gets none.
  const worker = navigator.connection?.saveData ? undefined : navigator.serviceWorker;
  let told = null;

  const tellSeen = async () => {
    if (!worker || told === location.pathname) return;
    if (!document.querySelector("[data-kept-as]") || document.querySelector("[data-copied]"))
      return;
    told = location.pathname;
    await worker.register("/sw.js");
    (await worker.ready).active.postMessage({ seen: told });
  };

  const keepSeen = () => {
    if (document.readyState === "complete") tellSeen().catch(() => null);
  };

  window.addEventListener("load", keepSeen);

  // A copy gives way to the page itself once the studio answers.
  const comeBack = async () => {
    const heard = await fetch("/healthz", { cache: "no-store" }).catch(() => null);
    if (heard?.ok) location.reload();
    else setTimeout(comeBack, 10_000);
  };
  if (document.querySelector("[data-copied]")) {
    window.addEventListener("online", comeBack);
    setTimeout(comeBack, 10_000);
  }

  // What had the focus may be gone after a swap. The keyboard goes on at what the address points to,
  // else at the same control, else at the top of what is new; a part that comes in beside what is
  // being typed takes it from nobody.
  let left = null;

  const sameAs = ({ id, name, value }) =>
    (id && document.getElementById(id)) ||
    Array.from(
      document.querySelectorAll("main button, main input, main select, main textarea"),
    ).find((control) => name && control.name === name && control.value === value);

  // htmx forgets the place on a page that it was told to go to.
  let ahead = "";

  const pointedTo = () => document.getElementById((ahead || location.hash).slice(1));

  // What is folded away takes no focus; what unfolds it does.
  const shownPart = (place) =>
    place.checkVisibility?.() === false
      ? (place.closest("details:not([open])")?.querySelector("summary") ??
        document.getElementById("main"))
      : place;

  const leadOn = () => {
    const [from, lost] = [left, document.activeElement === document.body];
    left = null;
    if (!from || !lost) return;
    const place = shownPart(pointedTo() ?? sameAs(from) ?? document.getElementById("main"));
    if (!place.matches("button, input, select, textarea, summary, a[href]")) place.tabIndex = -1;
    place.focus();
  };

  document.addEventListener("htmx:after:request", ({ detail: { ctx } }) => {
    const to = ctx.hx?.location;
    if (to) ahead = /#.*$/.exec(to)?.[0] ?? "";
  });

  document.addEventListener("htmx:before:swap", () => {
    const { activeElement } = document;
    if (activeElement !== document.body) left = activeElement;
  });
  document.addEventListener("htmx:after:swap", () => {
    leadOn();
    ahead = "";
    keepSeen();
  });
})();
