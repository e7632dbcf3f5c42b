import { Preview, type PreviewProps } from "./preview.tsx";

/** What the form around it comes to, worked out again as somebody types; nothing is stored. */
export const LivePreview = (preview: PreviewProps) => (
  <div
    class="sheet-preview"
    hx-post="/chemistry"
    hx-include="closest form"
    hx-trigger={'input changed delay:600ms from:"closest form"'}
    hx-target="#preview"
    hx-swap="outerHTML"
  >
    <Preview {...preview} />
  </div>
);
