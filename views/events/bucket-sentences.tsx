import { About, about, type Sentence, word } from "./about.tsx";

/** What happened to lots and buckets, by `subject: kind`. */
export const bucketSentences: Record<string, Sentence> = {
  "lot: lot added": about("put a lot of", " on record"),
  "lot: lot counted": (event) => (
    <>
      found {word(event.detail.grams)} g in a lot of <About event={event} />, by{" "}
      {word(event.detail.difference)} g other than on record
    </>
  ),
  "lot: lot used": (event) => (
    <>
      took {word(event.detail.grams)} g out of a lot of <About event={event} /> for something else
      than a mix
    </>
  ),
  "recall: recall raised": about("recalled", ", for safety"),
  "recall: recall closed": about("closed the recall of"),
  "bucket: bucket added": about("put the bucket", " on record"),
  "bucket: bucket changed": (event) => (
    <>
      {event.detail.is === "hold" ? "put the bucket" : "said that the bucket"}{" "}
      <About event={event} />
      {event.detail.is === "hold" ? " on hold" : ` is ${word(event.detail.is)}`}
    </>
  ),
  "mix: mix opened": (event) => (
    <>
      opened a mix of {word(event.detail.baseGrams)} g of base for the bucket{" "}
      <About event={event} />
    </>
  ),
  "mix: line ticked": (event) => (
    <>
      put {word(event.detail.grams)} g of line {word(event.detail.line)} into a mix for the bucket{" "}
      <About event={event} />
      {event.detail.lot === null ? ", out of a bag that nobody could tell" : ""}
    </>
  ),
  "mix: tick undone": (event) => (
    <>
      took back {word(event.detail.grams)} g of line {word(event.detail.line)} of a mix for the
      bucket <About event={event} />
    </>
  ),
  "mix: mix finished": about("finished a mix for the bucket"),
  "mix: mix given up": about("gave up a mix for the bucket"),
  "bucket: bucket read": (event) => (
    <>
      {event.detail.gravity === null ? "looked at the bucket " : "measured the bucket "}
      <About event={event} />
      {event.detail.gravity === null ? null : `, ${word(event.detail.gravity)}`}
      {event.detail.stirred ? ", stirred" : ""}
    </>
  ),
  "bucket: bucket adjusted": (event) => (
    <>
      {event.detail.what === "water off" ? "took" : "put"} {word(event.detail.amount)}{" "}
      {word(event.detail.unit)} of{" "}
      {event.detail.what === "water off" ? "water off" : `${word(event.detail.what)} into`} the
      bucket <About event={event} />
    </>
  ),
  "bucket: bucket used": about("used the bucket"),
  "bucket: bucket use undone": about("took back that the bucket", " was used"),
  "bucket: bucket directed": about("said how to use the bucket"),
  "bucket: bucket reported": (event) => (
    <>
      reported the bucket <About event={event} />: {word(event.detail.trouble)}
    </>
  ),
  "bucket: bucket report answered": about("said what was done about a report of the bucket"),
};
