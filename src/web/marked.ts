/** A part belongs to its piece: selecting the piece marks them all. */
const isWithin = (about: string, selected: string | undefined): boolean =>
  selected !== undefined && (about === selected || about.startsWith(`${selected}/`));

/** What of a drawing is marked: what belongs to what is selected, and the balloon of the note that is open. */
export const isMarkedBy =
  (selected: string | undefined, note: string | undefined) =>
  (about: string): boolean =>
    about === note || isWithin(about, selected);
