/** So many notes of one sort are told one by one; more of them are one note, so that they do not bury the others. */
export const FEW = 2;
