import { randomBytes } from 'node:crypto';
import type { ServerResponse } from 'node:http';
import type { LiveEvent } from '../core/workspace/index.ts';

/** Tells every page; `by` is the page whose doing it is. */
export type Announce = (event: LiveEvent, by?: string) => void;

export interface Events {
  readonly announce: Announce;
  /**
   * Feeds one page from the event after `last` on. False when there are too many already. `device` is the paired one, if it is one; `page`
   * is what it calls itself: a stream that it had before has ended on its side, though the line may not have told so.
   */
  readonly connect: (
    response: ServerResponse,
    last: string | undefined,
    owner: string,
    device?: number,
    page?: string,
  ) => boolean;
  /** Ends what a device that is no longer paired is still listening to. */
  readonly drop: (device: number) => void;
  readonly close: () => void;
  readonly count: () => number;
}

const KEPT = 1000;
/** And so many characters of them: a thousand large ones would be a weight. */
const MOST_KEPT = 4_000_000;
const MOST_PAGES = 60;
const MOST_PAGES_OF_ONE = 12;
/** A page that reads nothing while this many bytes wait for it is let go; it comes back and reads anew. */
const MOST_WAITING = 1_000_000;
const HEARTBEAT = 20_000;
/** A paired device's stream ends after an hour and comes back by itself: then its session is looked at again. */
const LASTS = 60 * 60_000;

/** The stream of live updates. What was sent is remembered for a while, so that a page that lost its connection misses nothing. */
export function liveEvents(): Events {
  const run = randomBytes(4).toString('hex');
  const kept: { readonly number: number; readonly text: string }[] = [];
  const pages = new Map<
    ServerResponse,
    { readonly owner: string; readonly device?: number; readonly page?: string; readonly since: number }
  >();
  let number = 0;
  let weight = 0;

  const send = (response: ServerResponse, text: string): void => {
    response.write(text);
    if (response.writableLength > MOST_WAITING) response.destroy();
  };
  const framed = (event: LiveEvent, id: number): string => `id: ${run}-${id}\ndata: ${JSON.stringify(event)}\n\n`;
  const heartbeat = setInterval(() => {
    for (const [page, { device, since }] of pages)
      if (device !== undefined && Date.now() - since > LASTS) page.end();
      else send(page, ': still here\n\n');
  }, HEARTBEAT);
  heartbeat.unref();

  return {
    announce(event, by) {
      const text = framed(by === undefined ? event : ({ ...event, by } as LiveEvent), ++number);
      kept.push({ number, text });
      weight += text.length;
      while (kept.length > KEPT || weight > MOST_KEPT) weight -= kept.shift()!.text.length;
      for (const page of pages.keys()) send(page, text);
    },

    connect(response, last, owner, device, page) {
      if (page !== undefined)
        for (const [before, one] of pages)
          if (one.page === page && one.owner === owner) {
            pages.delete(before);
            before.destroy();
          }
      const own = [...pages.values()].filter((one) => one.owner === owner).length;
      if (pages.size >= MOST_PAGES || own >= MOST_PAGES_OF_ONE) return false;
      pages.set(response, {
        owner,
        since: Date.now(),
        ...(device !== undefined && { device }),
        ...(page !== undefined && { page }),
      });
      response.on('close', () => pages.delete(response));
      response.on('error', () => pages.delete(response));
      response.write('retry: 1500\n\n');
      const match = /^([0-9a-f]{8})-(\d{1,15})$/.exec(last ?? '');
      const from = match?.[1] === run ? Number(match[2]) : undefined;
      const first = kept[0]?.number ?? number + 1;
      if (last === undefined) send(response, framed({ type: 'hello', started: run }, number));
      else if (from === undefined || from > number || from < first - 1)
        send(response, framed({ type: 'again' }, number));
      else for (const one of kept) if (one.number > from) send(response, one.text);
      return true;
    },

    drop(device) {
      for (const [page, one] of pages) if (one.device === device) page.end();
    },

    close() {
      clearInterval(heartbeat);
      for (const page of pages.keys()) page.end();
      pages.clear();
    },

    count: () => pages.size,
  };
}
