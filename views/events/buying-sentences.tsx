import { About, type Sentence, word } from "./about.tsx";

/** What happened to plans and to what suppliers sell, by `subject: kind`. */
export const buyingSentences: Record<string, Sentence> = {
  "supplier: pack added": (event) => (
    <>
      put the price of a pack of {word(event.detail.packGrams)} g on record, of{" "}
      <About event={event} />
    </>
  ),
  "supplier: pack ended": (event) => (
    <>
      said that a pack of {word(event.detail.packGrams)} g is no longer sold, of{" "}
      <About event={event} />
    </>
  ),
  "supplier: terms set": (event) => (
    <>
      put down what sending costs, of <About event={event} />
    </>
  ),
  "plan: plan added": (event) => (
    <>
      planned a batch of {word(event.detail.baseGrams)} g of <About event={event} />
    </>
  ),
  "plan: plan ended": (event) => (
    <>
      ended the plan of a batch of <About event={event} />: {word(event.detail.is)}
    </>
  ),
};
