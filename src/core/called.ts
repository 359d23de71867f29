/** A wall by its name: north wall, but quay wall, which says so itself. */
export const wallCalled = (id: string): string => (says(id, 'wall') ? id : `${id} wall`);

/** A door, a window or an outlet by its name, with its kind where the name does not say it: door hall, but hall door. */
export const thingCalled = (kind: string, id: string): string => (says(id, kind) ? id : `${kind} ${id}`);

const says = (id: string, kind: string): boolean => new RegExp(`\\b${kind}\\b`, 'i').test(id);
