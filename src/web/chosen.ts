/** Larger than any plan or list that is taken: a million characters of up to four. */
const MOST_BYTES = 4_000_000;

/** The file that was chosen, unless it is larger than any `what`; the same one, put right, may be chosen again. */
export function chosen(input: HTMLInputElement, what: string, refuse: (why: string) => void): File | undefined {
  const file = input.files?.[0];
  input.value = '';
  if (!file || file.size <= MOST_BYTES) return file;
  refuse(`${file.name} is too large for a ${what}.`);
  return undefined;
}
