export type Photo = {
  sha256: string;
  alt: string;
  width: number;
  height: number;
  removed: boolean;
};

const widths = [200, 600, 1200] as const;

/** The widths to choose from, by what they really are: a small picture is not enlarged. */
export const srcsetOf = (
  { sha256, width }: Pick<Photo, "sha256" | "width">,
  at = "/photos",
): string =>
  widths
    .filter((_, place) => place === 0 || (widths[place - 1] ?? 0) < width)
    .map((wide) => `${at}/${sha256}/${wide} ${Math.min(wide, width)}w`)
    .join(", ");

/** A picture as it hangs on a tile. */
export type HungPhoto = Photo & { id: string };

/** Where a tile's picture stands over the whole screen. */
export const viewingOf = (tileId: string, { id }: HungPhoto): string =>
  `/tiles/${tileId}/photos/${id}`;

type TilePhotoProps = {
  photo: Photo;
  instead: string;
  sizes: string;
  eager?: boolean | undefined;
  /** The whole of it where nothing is said. */
  leadsTo?: string | undefined;
  /** Where pictures are, for who may read them nowhere else. */
  at?: string | undefined;
};

/**
 * A picture of a tile that leads to where it is seen whole; one that was removed leaves an outline. Width
 * and height are those of the whole picture, so that its place is kept while it loads.
 *
 * @param instead what the picture shows where nobody described it.
 */
export const TilePhoto = ({
  photo,
  instead,
  sizes,
  eager,
  leadsTo,
  at = "/photos",
}: TilePhotoProps) =>
  photo.removed ? (
    <p class="tile-none tile-gone">This picture was removed.</p>
  ) : (
    <a class="tile-photo" href={leadsTo ?? `${at}/${photo.sha256}/full`}>
      <img
        src={`${at}/${photo.sha256}/600`}
        srcset={srcsetOf(photo, at)}
        sizes={sizes}
        width={photo.width}
        height={photo.height}
        alt={photo.alt === "" ? instead : photo.alt}
        loading={eager ? "eager" : "lazy"}
        decoding="async"
      />
    </a>
  );
