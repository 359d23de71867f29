/** What two names have in common that are one file on a disk that does not tell capital letters, or ways to write an accent, apart. */
export const foldedName = (name: string): string => name.normalize('NFC').toLowerCase();
