import { About, about, type Sentence, word } from "./about.tsx";
import { bucketSentences } from "./bucket-sentences.tsx";
import { buyingSentences } from "./buying-sentences.tsx";
import { handingOnSentences } from "./handing-on-sentences.tsx";

/** For what is said of one revision. */
function judged(verb: string): Sentence {
  return (event) => (
    <>
      {verb} revision {word(event.detail.number)} of <About event={event} />
    </>
  );
}

/** What happened, by `subject: kind`, in words that follow the name of whoever did it. */
export const sentences: Partial<Record<string, Sentence>> = {
  "studio: made the demo": () => "made the studio of the demo, invented from end to end",
  "invite: invited": ({ detail }) => `made a link by which a ${word(detail.role)} can join`,
  "invite: invite revoked": () => "ended a link to join that nobody had used",
  "person: joined": ({ detail }) => `joined the studio as ${word(detail.role)}`,
  "person: role changed": (event) => (
    <>
      made <About event={event} /> {word(event.detail.to)} instead of {word(event.detail.from)}
      {Number(event.detail.invitesRevoked) > 0 ? "; unused links made by them ended" : ""}
    </>
  ),
  "person: password changed": ({ detail }) =>
    Number(detail.sessionsEnded) > 0
      ? `changed their password, which signed out ${others(detail.sessionsEnded)}`
      : "changed their password",
  "person: recovery made": about("made a link to set a new password for"),
  "person: recovery ended": about("ended a link to set a new password for"),
  "person: recovery used": ({ detail }) =>
    Number(detail.sessionsEnded) > 0
      ? `set a new password by a link, which signed out ${others(detail.sessionsEnded)}`
      : "set a new password by a link",
  "person: sessions ended": ({ detail }) => `signed out ${others(detail.sessionsEnded)} of theirs`,
  "person: removed": about("removed a person, now"),
  "person: mail wished": ({ detail }) =>
    detail.mail === "off"
      ? "wishes no mail"
      : `wishes to be told by mail what waits, ${word(detail.mail)}`,
  "person: settings changed": () => "changed how pages read for them",
  "person: feed opened": () => "opened a feed of what waits for them",
  "person: feed closed": () => "closed their feed",
  "note: removed": about("removed the words of a note on"),

  "recipe: published": about("published"),
  "recipe: forked": about("forked a recipe into"),
  "recipe: revised": (event) => (
    <>
      published revision {word(event.detail.number)} of <About event={event} />
    </>
  ),
  "recipe: noted": (event) => (
    <>
      {event.detail.blocking === true ? "raised an objection to" : "put a note on"} revision{" "}
      {word(event.detail.number)} of <About event={event} />
    </>
  ),
  "recipe: replied": about("replied to a note on"),
  "recipe: note edited": about("changed the words of a note on"),
  "recipe: objection closed": about("closed an objection to"),
  "recipe: objection overruled": about("overruled an objection to"),
  "recipe: approved": judged("approved"),
  "recipe: objected to": judged("objected to"),
  "recipe: remarked on": judged("remarked on"),
  "recipe: review asked for": judged("asked for a review of"),
  "recipe: standing changed": (event) => (
    <>
      found that revision {word(event.detail.number)} of <About event={event} /> counts as “
      {word(event.detail.after)}” now, and no longer as “{word(event.detail.before)}”
    </>
  ),
  "studio: studio set": ({ detail }) =>
    `set the studio: a scale of ${word(detail.scaleGrams)} g, approvals that hold ${
      detail.approvalMonths === null ? "for ever" : `${word(detail.approvalMonths)} months`
    }`,
  "studio: record verified": ({ detail }) =>
    detail.sound === true ? "checked the record: it held" : "checked the record: it did not hold",
  "recipe: withdrawn": (event) => (
    <>
      withdrew <About event={event} />
      {event.detail.forSafety === true ? " for safety" : ""}
    </>
  ),
  "recipe: put forward again": about("put", " forward again"),
  "recipe: shown to": (event) => (
    <>
      set who can read <About event={event} />: {word(event.detail.shownTo)}
    </>
  ),

  "supplier: supplier added": about("put on record who sells powders:"),
  "offer: offered": about("offered a fork back to"),
  "offer: offer accepted": (event) => (
    <>
      took an offer into <About event={event} />, now revision {word(event.detail.number)}
    </>
  ),
  "offer: offer declined": about("turned down an offer to"),

  "tile: tile added": (event) => (
    <>
      put a tile of <About event={event} /> on record, cone {word(event.detail.cone)}
    </>
  ),
  "tile: tile withdrawn": about("withdrew a tile of"),
  "test: test added": (event) => (
    <>
      put a test of <About event={event} /> on record: {word(event.detail.kind)},{" "}
      {word(event.detail.outcome)}
    </>
  ),
  "test: test withdrawn": about("withdrew a test of"),
  "test: report added": about("put a laboratory's report with a test of"),
  "test: test photo added": (event) => (
    <>
      hung a picture {word(event.detail.taken)} a test of <About event={event} /> beside it
    </>
  ),
  "test: test photo removed": about("removed a picture of a test of"),
  "tile: photo added": about("hung a picture on a tile of"),
  "tile: colour added": about("put a colour on record of a tile of"),
  "tile: photo removed": about("removed a picture from a tile of"),

  "material: material added": about("added", " to the shelf"),
  "material: name added": about("added a name for"),
  "material: name removed": about("took a name away from"),
  "material: analysis added": (event) => (
    <>
      added an analysis of <About event={event} />
      {event.detail.inUse === true ? ", in use from then" : ""}
    </>
  ),
  "material: analysis put in use": about("put another analysis of", " in use"),
  "material: no longer sold": about("put on record that", " is no longer sold"),
  "material: sold again": about("put on record that", " is sold again"),
  "material: data sheet added": about("put down what the safety data sheet says of"),
  "material: dry gravity added": (event) => (
    <>
      said that the dry gravity of <About event={event} /> is {word(event.detail.gravity)}
    </>
  ),

  "material: stock line set": (event) => (
    <>
      {event.detail.grams === null
        ? "let its use tell how much there should be of "
        : `said that there should always be ${word(event.detail.grams)} g of `}
      <About event={event} />
    </>
  ),

  "body: body added": about("put the body", " on record"),
  "body: body sheet added": about("put a new sheet on the body"),
  "firing: firing added": about("put a firing on record:"),
  "firing: readings added": (event) => (
    <>
      put {word(event.detail.kept)} readings of a firing on record: <About event={event} />
    </>
  ),
  "firing: witness cone added": (event) => (
    <>
      added a witness cone {word(event.detail.cone)}, bent {word(event.detail.bendDegrees)}°, to a
      firing: <About event={event} />
    </>
  ),
  "firing: cost added": about("put down what a firing used:"),
  "firing: firing withdrawn": about("withdrew a firing:"),
  "share link: share link made": (event) => (
    <>
      made a link to revision {word(event.detail.number)} of <About event={event} />
    </>
  ),
  "share link: share link revoked": about("ended a link to"),
  "family: family added": about("wrote up the family"),
  "family: family changed": about("said anew what belongs to the family"),
  "pair: pair added": about("put a layered pair on record:"),
  "pair: pair approved": (event) => (
    <>
      approved the pair <About event={event} />{" "}
      {event.detail.for === "functional" ? "for functional ware" : "as decorative only"}
    </>
  ),
  "pair: pair objected to": about("objected to the pair"),
  "pair: pair remarked on": about("remarked on the pair"),
  "trial: trial added": (event) => (
    <>
      put the trial <About event={event} /> on record, {word(event.detail.points)} points
    </>
  ),
  "trial: trial result added": (event) => (
    <>
      put down what came of point {word(event.detail.point)} of the trial <About event={event} />
    </>
  ),
  "trial: trial result withdrawn": (event) => (
    <>
      withdrew what was put down at point {word(event.detail.point)} of the trial{" "}
      <About event={event} />
    </>
  ),
  "trial: trial photo added": (event) => (
    <>
      hung a picture on point {word(event.detail.point)} of the trial <About event={event} />
    </>
  ),
  "trial: trial photo removed": about("removed a picture from the trial"),
  "trial: trial point made a recipe": (event) => (
    <>
      made point {word(event.detail.point)} of the trial <About event={event} /> a recipe
    </>
  ),
  "kiln: kiln added": about("put the kiln", " on record"),
  ...bucketSentences,
  ...buyingSentences,
  ...handingOnSentences,
};

const others = (ended: unknown): string =>
  Number(ended) === 1 ? "one other browser" : `${word(ended)} other browsers`;
