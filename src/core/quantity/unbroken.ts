/** What a number is not parted from, as it is written in notes and messages. */
const UNIT_WORDS = 'mm|cm|m|km|in|ft|kg|g|t|lb|oz|N|kN|MPa|psi|L|gal|lx|lm|K|Hz|kHz|dB|V|A|W|s|ms|µs|h|min|mil';

/** The pattern of a space at which no line ends. */
export const UNBROKEN_SPACE = `(?<=\\d['′]|ΔE00) (?=\\d)|(?<=\\d) (?=%|of \\d|(?:${UNIT_WORDS})(?![\\p{L}\\d]))|(?<=\\d of) (?=\\d)`;
const SPACES = new RegExp(UNBROKEN_SPACE, 'gu');

/**
 * A text as a page shows it, which breaks lines by itself: a number stays with its unit, with how many there are of them, a difference of
 * colour with its sign, feet with their inches, whole inches with their fraction. What is copied from there reads back as the same length.
 */
export const unbroken = (text: string): string =>
  text.replace(SPACES, '\u00a0').replace(/(?<=\d-)(?=\d+\/)/g, '\u2060');
