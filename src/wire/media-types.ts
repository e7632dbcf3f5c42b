const mediaType = (header: string | undefined): string =>
  (header ?? "").split(";")[0]?.trim().toLowerCase() ?? "";

export const isJson = (contentType: string | undefined): boolean =>
  mediaType(contentType) === "application/json";

export const isForm = (contentType: string | undefined): boolean =>
  ["application/x-www-form-urlencoded", "multipart/form-data"].includes(mediaType(contentType));

export const isCsv = (contentType: string | undefined): boolean =>
  mediaType(contentType) === "text/csv";
