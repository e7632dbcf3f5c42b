/** What the demo's studio is called. */
export const studioName = "Saltmarsh Lane Studio";
