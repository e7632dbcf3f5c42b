/** That a link hands nothing out, whether it was ended or never was. */
export const GoneHandout = () => (
  <section>
    <h1>Not handed out</h1>
    <p>
      This link hands nothing out: it was ended, or part of its address is missing. Ask whoever gave
      it to you for a new one, and whether what you have still holds.
    </p>
  </section>
);
