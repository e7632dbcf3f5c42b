// What the pages do beyond htmx: keep what was typed, lead to what is wrong, print.
// Without it every page still reads and writes.
(() => {
  const unkept = new Set(["password", "file", "submit", "button", "image", "reset", "hidden"]);

  // A kept revision remembers the head it was made from, so that publishing it over a newer one is
  // still refused. No other hidden field is the writer's own.
  const isKept = (control) =>
    control.name !== "" && (!unkept.has(control.type) || control.name === "basedOn");

  const isTicked = ({ type }) => type === "checkbox" || type === "radio";

  const keyOf = (draft) =>
    `draft:${document.getElementById("main")?.dataset.viewer ?? ""}:${draft}`;

  /** What stands in the form: name, value and, where it can be ticked, whether it is. */
  const written = (form) =>
    Array.from(form.elements)
      .filter(isKept)
      .map((control) => [control.name, control.value, isTicked(control) ? control.checked : null]);

  // A full or closed store keeps no draft; the form itself works as before.
  const attempt = (step) => {
    try {
      return step();
    } catch {
      return null;
    }
  };

  const stored = (key) => attempt(() => JSON.parse(localStorage.getItem(key)));
  const store = (key, fields) => attempt(() => localStorage.setItem(key, JSON.stringify(fields)));
  const forget = (key) => attempt(() => localStorage.removeItem(key));

  /** Puts a draft back; answers the fields that have no place in the form any more. */
  const putBack = (form, fields) => {
    const free = Array.from(form.elements).filter(isKept);
    return fields.filter(([name, value, ticked]) => {
      const place = free.findIndex(
        (control) => control.name === name && (!isTicked(control) || control.value === value),
      );
      const [control] = place < 0 ? [] : free.splice(place, 1);
      if (!control) return ticked !== false && value !== "";
      if (isTicked(control)) control.checked = ticked === true;
      else control.value = value;
      return false;
    });
  };

  const sayKept = (form, key, homeless) => {
    const line = document.createElement("p");
    line.className = "notice draft-kept";
    line.setAttribute("role", "status");
    line.append("We kept what you had typed here. ");
    if (homeless.length > 0) {
      const list = homeless.map(([name, value]) => `${name}: ${value}`).join("; ");
      line.append(`This part has no place in the form any more: ${list}. `);
    }
    const discard = document.createElement("button");
    discard.type = "button";
    discard.className = "quiet";
    discard.textContent = "Discard it";
    discard.addEventListener("click", () => {
      form.reset();
      forget(key);
      line.remove();
      form.querySelector("input:not([type=hidden]), textarea, select")?.focus();
    });
    line.append(discard);
    form.prepend(line);
  };

  const ready = new WeakSet();
  const seen = new Set();
  const sent = attempt(() => sessionStorage.getItem("draft-sent"));
  attempt(() => sessionStorage.removeItem("draft-sent"));

  // The answer to a form already holds what was typed, and what the studio made of it.
  const isAnswer = (form, key) =>
    seen.has(key) ||
    sent === key ||
    form.hasAttribute("data-draft-shown") ||
    document.getElementById("faults") !== null;

  const keepDraft = (form) => {
    if (ready.has(form)) return;
    ready.add(form);
    const key = keyOf(form.dataset.draft);
    const draft = stored(key);
    if (draft && isAnswer(form, key)) store(key, written(form));
    else if (draft && JSON.stringify(draft) !== JSON.stringify(written(form))) {
      sayKept(form, key, putBack(form, draft));
    }
    seen.add(key);
    const keep = () => store(key, written(form));
    form.addEventListener("input", keep);
    form.addEventListener("change", keep);
  };

  const forgetDone = (page) => {
    for (const done of page.querySelectorAll('meta[name="draft-done"]'))
      forget(keyOf(done.content));
  };

  const led = new WeakSet();

  const leadToFaults = () => {
    const faults = document.getElementById("faults");
    if (!faults || led.has(faults)) return;
    led.add(faults);
    faults.focus();
  };

  const settle = () => {
    forgetDone(document);
    document.querySelectorAll("form[data-draft]").forEach(keepDraft);
    for (const button of document.querySelectorAll("[data-print][hidden]")) button.hidden = false;
    leadToFaults();
  };

  // Being sent to sign in is no sign that the form was taken.
  const wentOn = ({ hx, response }) => {
    const to =
      hx?.location ?? hx?.redirect ?? (response?.raw?.redirected ? response.raw.url : null);
    return to !== null && !to.includes("/session");
  };

  document.addEventListener("htmx:after:request", ({ detail: { ctx } }) => {
    // htmx leaves an answer's head out of the page, and the mark may stand there.
    if (ctx.text?.includes("draft-done")) {
      forgetDone(new DOMParser().parseFromString(ctx.text, "text/html"));
    }
    const draft = ctx.sourceElement?.closest?.("form[data-draft]")?.dataset.draft;
    if (draft && ctx.request?.method !== "GET" && wentOn(ctx)) forget(keyOf(draft));
  });
  document.addEventListener("htmx:after:swap", settle);
  document.addEventListener("submit", ({ target, defaultPrevented }) => {
    const draft = target.dataset.draft;
    if (!draft || defaultPrevented) return;
    attempt(() => sessionStorage.setItem("draft-sent", keyOf(draft)));
  });
  document.addEventListener("click", ({ target }) => {
    if (target.closest?.("[data-print]")) window.print();
  });
  settle();

  // A tile's pictures over the whole screen: keys and swipes follow the links that stand there.
  const follow = (which) => {
    const link = document.querySelector(`[data-viewing] ${which}`);
    link?.click();
    return link !== null;
  };
  const ways = { ArrowLeft: "a[rel=prev]", ArrowRight: "a[rel=next]", Escape: "a[data-close]" };

  document.addEventListener("keydown", (event) => {
    const way = ways[event.key];
    if (!way || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (follow(way)) event.preventDefault();
  });

  let touched = null;
  const isZoomed = () => (window.visualViewport?.scale ?? 1) > 1.05;

  document.addEventListener(
    "touchstart",
    ({ touches, target }) => {
      const alone = touches.length === 1 && !isZoomed() && target.closest?.("[data-viewing]");
      touched = alone ? { x: touches[0].clientX, y: touches[0].clientY } : null;
    },
    { passive: true },
  );
  document.addEventListener("touchend", ({ changedTouches: [end] }) => {
    if (!touched || !end) return;
    const [across, down] = [end.clientX - touched.x, end.clientY - touched.y];
    touched = null;
    if (Math.abs(across) < 60 || Math.abs(across) < 2 * Math.abs(down)) return;
    follow(across > 0 ? ways.ArrowLeft : ways.ArrowRight);
  });

  // What others did on the recipe meanwhile. Only the element for it is touched, never what is typed,
  // and a page that nobody looks at does not ask.
  const tags = new WeakMap();

  const readNews = async (place) => {
    const tag = tags.get(place);
    const answer = await fetch(place.dataset.news, {
      cache: "no-store",
      headers: { Accept: "text/html", ...(tag && { "If-None-Match": tag }) },
    });
    if (answer.status !== 200 || answer.redirected) return;
    tags.set(place, answer.headers.get("ETag"));
    place.innerHTML = await answer.text();
  };

  const askForNews = async () => {
    const place = document.querySelector("[data-news]");
    // The network may be away for a while; the next question finds out.
    if (place && document.visibilityState === "visible") await readNews(place).catch(() => null);
    waitForNews();
  };

  const waitForNews = () => {
    const every = Number(document.querySelector("[data-news]")?.dataset.every ?? 20_000);
    setTimeout(askForNews, every);
  };
  waitForNews();
})();
