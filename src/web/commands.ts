import type { PieceKind } from '../core/plan/index.ts';
import { findPiece, placeEdits, type Scene } from './arrange.ts';
import { change, say, useBench } from './bench.ts';
import { addEdits, copyEdits, mirrorEdits, otherSide, removeEdits } from './whole-pieces.ts';

/** What can be done with a whole piece, from wherever it is asked. */

export function addPiece(scene: Scene, kind: PieceKind, wall: string): void {
  const { edits, name, why, remark } = addEdits(scene, kind, wall, useBench.getState().plain);
  if (why !== undefined) say(why);
  else if (change(`New ${kind}`, edits).length === 0) {
    useBench.setState({ selected: name });
    if (remark !== undefined) say(remark);
  }
}

export function copyPiece(scene: Scene, name: string): void {
  const found = findPiece(scene, name);
  const { plain } = useBench.getState();
  if (!found || plain === undefined) return;
  const copy = copyEdits(scene, plain, found);
  if (change(`Copy of ${found.placed?.title ?? name}`, copy.edits).length > 0) return;
  useBench.setState({ selected: copy.name });
  // the keys go on with what is chosen now, not with what it was copied from
  requestAnimationFrame(() => {
    if (document.activeElement?.classList.contains('hold'))
      document.querySelector<HTMLElement>('.hold.chosen')?.focus();
  });
}

export function deletePiece(scene: Scene, name: string): void {
  const found = findPiece(scene, name);
  const { plain } = useBench.getState();
  if (!found || plain === undefined) return;
  if (change(`${found.placed?.title ?? name} taken away`, removeEdits(scene, plain, found)).length === 0)
    useBench.setState({ selected: undefined });
  // what had the focus went with the piece
  requestAnimationFrame(() => {
    if (document.activeElement === document.body) document.getElementById('drawing')?.focus();
  });
}

export function mirrorPiece(scene: Scene, name: string): void {
  const found = findPiece(scene, name);
  const { plain } = useBench.getState();
  if (!found || plain === undefined) return;
  const edits = mirrorEdits(plain, found);
  if (edits.length === 0) say('It is the same mirrored.');
  else change(`${found.placed?.title ?? name} mirrored`, edits);
}

export function toOtherSide(scene: Scene, name: string): void {
  const found = findPiece(scene, name);
  const to = found && otherSide(scene, found);
  if (found && to) change(`${found.placed?.title ?? name} to the other side`, placeEdits(scene, found, to));
}
