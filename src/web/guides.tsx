import { type RefObject, useState } from 'preact/compat';
import type { Page, PageView } from '../core/drawing/index.ts';
import { sharing } from '../core/plan/index.ts';
import { layAt, onSheet, placeOf } from './laid.ts';
import type { Guide } from './pull.ts';

/** A frame where the piece comes to, and lines through what caught it. They change with every step of a hand, and all that can be held does not. */
export function Guides({
  show,
  page,
  view,
}: {
  readonly show: RefObject<(guide: Guide) => void>;
  readonly page: Page;
  readonly view: PageView;
}) {
  const [{ u, v, comesTo }, setGuide] = useState<Guide>({});
  show.current = (now) => setGuide((before) => sharing(before, now));
  const { x, y } = onSheet(page, view);
  return (
    <>
      {comesTo && <span className="comes-to" ref={(node) => layAt(node, placeOf(page, view, comesTo))} />}
      {u && (
        <span className="guide upright" ref={(node) => node?.style.setProperty('left', `${x(u.at)}%`)}>
          <b ref={(node) => comesTo && layBeside(node, 'top', 'bottom', comesTo.v.map(y))}>{u.what}</b>
        </span>
      )}
      {v && (
        <span className="guide level" ref={(node) => node?.style.setProperty('top', `${y(v.at)}%`)}>
          <b ref={(node) => comesTo && layBeside(node, 'left', 'right', comesTo.u.map(x))}>{v.what}</b>
        </span>
      )}
    </>
  );
}

/** What caught it is said where one looks: behind the frame, or before it where that lies in the further half of the sheet. */
function layBeside(node: HTMLElement | null, start: string, end: string, [from, to]: readonly number[]): void {
  const isNear = from! + to! < 100;
  node?.style.setProperty(start, isNear ? `${to}%` : 'auto');
  node?.style.setProperty(end, isNear ? 'auto' : `${100 - from!}%`);
}
