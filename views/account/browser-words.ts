const browsers: readonly [RegExp, string][] = [
  [/\bEdgA?\//, "Edge"],
  [/\bOPR\//, "Opera"],
  [/\bSamsungBrowser\//, "Samsung Internet"],
  [/\bFirefox\/|\bFxiOS\//, "Firefox"],
  [/Chrome\/|\bCriOS\//, "Chrome or one built on it"],
  [/\bSafari\//, "Safari"],
];

const machines: readonly [RegExp, string][] = [
  [/\biPhone\b/, "an iPhone"],
  [/\biPad\b/, "an iPad"],
  [/\bAndroid\b/, "Android"],
  [/\bWindows\b/, "Windows"],
  [/\bMac OS X\b/, "a Mac"],
  [/\bCrOS\b/, "a Chromebook"],
  [/\bLinux\b/, "Linux"],
];

/** A browser's own long name in words: “Firefox on Windows”. Order matters: most claim to be others. */
export function browserWords(userAgent: string): string {
  const browser = browsers.find(([sign]) => sign.test(userAgent))?.[1];
  const machine = machines.find(([sign]) => sign.test(userAgent))?.[1];
  if (browser && machine) return `${browser} on ${machine}`;
  return (
    browser ?? (userAgent === "" ? "A program that does not say what it is" : "Another program")
  );
}
