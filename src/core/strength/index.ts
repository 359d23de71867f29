import type { CheckRow } from '../notes/index.ts';
import { carryingChecks } from './checks-carrying.ts';
import { fixingChecks } from './checks-fixing.ts';
import { shelfChecks } from './checks-shelf.ts';

export { calculators } from './calculators.ts';
export { framingNotes } from './fixing/framing-species.ts';
export { fixings } from './fixing/held.ts';
export { endScrew, layersOf, letIn, type Timber } from './fixing/let-in.ts';
export { fixIssues, takesNoFixings } from './fixing/meant.ts';
export { fixingNotes } from './fixing/notes.ts';
export { partitionNotes } from './fixing/partition.ts';
export { type FixingPoint, isScrew, type PieceFixing } from './fixing/point.ts';
export { STUD_CUTS } from './fixings.ts';
export { finest, type Subject, subjectsOf, type WallInput } from './plan-input.ts';
export { raisedByTwo } from './plan-lifting.ts';
export { bendingNotes, carryingNotes } from './plan-notes.ts';
export { stoodOnNotes } from './plan-stood-on.ts';
export { boltRows } from './split.ts';

export const checks: readonly CheckRow[] = [...shelfChecks, ...fixingChecks, ...carryingChecks];
export { usedWords } from './used.ts';
