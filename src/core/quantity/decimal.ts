/** A whole count of the last decimal place as text, without trailing zeros: 10287 with 1 place is 1028.7. */
export function fixed(count: number, places: number): string {
  const padded = padded0(count, places);
  return places === 0 ? padded : padded.replace(/\.?0+$/, '');
}

/** The same with every place written: 4800 with 2 places is 48.00. */
export function padded0(count: number, places: number): string {
  const text = String(Math.abs(count)).padStart(places + 1, '0');
  const whole = text.slice(0, text.length - places);
  return (count < 0 ? '-' : '') + (places === 0 ? whole : `${whole}.${text.slice(text.length - places)}`);
}

/** At most so many decimals, a half away from zero, zero without a sign. */
export function toPlaces(value: number, places: number): string {
  const count = Math.sign(value) * Math.round(Math.abs(value) * 10 ** places);
  return fixed(count === 0 ? 0 : count, places);
}
