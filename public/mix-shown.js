// Shows on the page of a mix what waits to be sent, beside what the studio has of it.
const make = (tag, fields, ...inside) => {
  const made = Object.assign(document.createElement(tag), fields);
  made.append(...inside);
  return made;
};

const isWaiting = ({ refused, sent }) => !refused && !sent;

/** What is still to be told: neither taken back before it was sent, nor on the page already. */
const toTell = (mine) => {
  const taken = new Set(
    mine.filter(({ does, refused }) => does === "undo" && !refused).map(({ key }) => key),
  );
  const undoings = [...document.querySelectorAll(".mix-in form")];
  for (const form of undoings) form.hidden = taken.has(form.elements.key.value);
  const there = new Set(undoings.map((form) => form.elements.key.value));
  return mine.filter(({ does, key }) => does === "undo" || !(taken.has(key) || there.has(key)));
};

const wordsOf = ({ does, grams, called, refused, sent }) => {
  const isUndo = does === "undo";
  if (refused) {
    const head = isUndo ? `${grams} g not taken back:` : `${grams} g, ${called}, not taken:`;
    return [make("strong", {}, head), ` ${refused.says}`];
  }
  const where = sent ? "sent" : "waiting for the network";
  return [isUndo ? `${grams} g taken back: ${where}.` : `${grams} g, ${called}, put in: ${where}.`];
};

const buttonsOf = (entry, { takeBack, again, drop }) => {
  const button = (words, press) => {
    const about = make("span", { className: "hidden-words" }, `: ${entry.grams} g`);
    const pressed = () => press(entry);
    return make("button", { type: "button", className: "quiet", onclick: pressed }, words, about);
  };
  const { does, refused, sent } = entry;
  if (sent) return [];
  if (refused) {
    const first = refused.onTop ? "It came on top: send it" : "Send it again";
    return [button(first, again), button("Drop it", drop)];
  }
  return [does === "undo" ? button("Leave it in", drop) : button("Undo", takeBack)];
};

const showEntries = (line, entries, on) => {
  const within = line.querySelector(".mix-in");
  const id = `waits-${line.id}`;
  const shows = JSON.stringify(entries);
  const old = document.getElementById(id);
  if ((old?.dataset.shows ?? "[]") === shows) return;
  old?.remove();
  if (entries.length === 0) return;
  const items = entries.map((entry) =>
    make("li", {}, make("span", {}, ...wordsOf(entry)), ...buttonsOf(entry, on)),
  );
  const list = make("ul", { id, className: "mix-ticks" }, ...items);
  list.dataset.shows = shows;
  within.after(list);
};

/** The form of a line steps back once something waits of it, as it does once something is in. */
const fold = (line, isIn) => {
  const form = line.querySelector(".mix-tick[data-live=first] form");
  if (!form) return;
  const folded = form.closest("details");
  if (isIn && !folded) {
    const details = make("details", {}, make("summary", {}, "Put more of it in"));
    form.replaceWith(details);
    details.append(form);
    form.elements.grams.value = "";
  } else if (!isIn && folded) {
    folded.replaceWith(form);
    form.reset();
  }
};

const showLine = (line, entries, on) => {
  const own = entries.filter(({ n }) => line.id === `line-${n}`);
  showEntries(line, own, on);
  const ticks = own.filter(({ does, refused }) => does !== "undo" && !refused);
  fold(line, ticks.length > 0);
  line.classList.toggle("mix-line-waits", own.length > 0);
  const there = [...line.querySelectorAll(".mix-in form:not([hidden])")];
  return [...there.map(({ dataset }) => dataset.grams), ...ticks.map(({ grams }) => grams)];
};

const showProgress = (lines, isOther) => {
  const place = document.getElementById("mix-progress");
  const [own, other] = place.querySelectorAll(".mix-progress");
  other?.remove();
  own.hidden = isOther;
  if (!isOther) return;
  const grams = lines.flat().reduce((sum, each) => sum + Number(each), 0);
  const count = lines.filter(({ length }) => length > 0).length;
  const words = `In, with what waits: ${count} of ${lines.length} lines, ${Number(grams.toFixed(4))} g of ${place.dataset.total} g.`;
  own.after(make("p", { className: "mix-progress" }, make("strong", {}, words)));
};

const showEnds = (reason) => {
  const ends = "form:is([action$='/finish'], [action$='/giving-up'])";
  const id = "mix-ends-wait";
  const old = document.getElementById(id);
  if ((old?.textContent ?? "") === reason) return;
  old?.remove();
  if (reason) document.querySelector(ends)?.before(make("p", { id, className: "answer" }, reason));
  for (const button of document.querySelectorAll(`${ends} button`)) {
    button.disabled = reason !== "";
    if (reason) button.setAttribute("aria-describedby", id);
    else button.removeAttribute("aria-describedby");
  }
};

const many = (n) => (n === 1 ? "1 entry waits" : `${n} entries wait`);

const clock = new Intl.DateTimeFormat("en-GB", {
  ...{ day: "numeric", month: "long", hour: "2-digit", minute: "2-digit", timeZone: "UTC" },
});

const link = (href, words) => make("a", { href }, words);

const statusOf = ({ mine, others, elsewhere }, { at, away, signedOut }) => {
  const parts = [];
  const waiting = mine.filter(isWaiting).length;
  if (away) parts.push(`As of ${clock.format(at)} UTC, ${away}. `);
  if (signedOut) parts.push("You are signed out. ");
  if (waiting > 0) {
    const sent = waiting === 1 ? "is sent by itself" : "are sent by themselves";
    parts.push(`${many(waiting)} here and ${sent}. `);
  }
  if (signedOut) {
    parts.push(link(`/session/new?next=${encodeURIComponent(location.pathname)}`, "Sign in"), " ");
  }
  for (const { n } of mine.filter(({ refused }) => refused)) {
    parts.push("Something was not taken: ", link(`#line-${n}`, `see line ${n}`), ". ");
  }
  for (const name of new Set(others.map((entry) => entry.name))) {
    const theirs = others.filter((entry) => entry.name === name && !entry.sent).length;
    if (theirs > 0) parts.push(`${many(theirs)} here until ${name} signs in. `);
  }
  for (const mix of new Set(elsewhere.filter(({ sent }) => !sent).map((entry) => entry.mix))) {
    parts.push("Entries of yours wait in ", link(mix, "another mix"), ". ");
  }
  return parts;
};

/** Brings the page to what waits: `{mine, others, elsewhere}`, and to what was heard of the studio. */
export const show = (waits, heard, { isSending, on }) => {
  const entries = toTell(waits.mine);
  const lines = [...document.querySelectorAll(".mix-line")].map((line) =>
    showLine(line, entries, on),
  );
  showProgress(
    lines,
    entries.some(({ refused }) => !refused),
  );
  const undecided = waits.mine.filter(({ sent }) => !sent);
  if (undecided.length > 0) showEnds("The mix ends when nothing of yours waits here any more.");
  else showEnds(heard.away ? "The mix ends when there is a network again." : "");

  // What goes through at once is no news.
  if (isSending && waits.mine.some(isWaiting) && !heard.away && !heard.signedOut) return;
  const status = document.getElementById("mix-status");
  const parts = make("p", {}, ...statusOf(waits, heard));
  if (parts.innerHTML !== status.innerHTML) status.replaceChildren(...parts.childNodes);
};
