import { createHash } from 'node:crypto';
import type { Issue } from '../core/issue/index.ts';
import { PAPER_NAMES } from '../core/plan/index.ts';
import { isDay } from '../core/workspace/index.ts';
import { Refused } from './refusal.ts';

export interface PacketRequest {
  readonly text: string;
  readonly today: string;
  readonly option?: string;
  readonly paper?: string;
  readonly labels?: string;
  readonly steps?: number;
}
export type PacketAnswer =
  | { readonly ok: true; readonly pdf: Uint8Array }
  | { readonly ok: false; readonly message: string; readonly issues: readonly Issue[] };

/** Draws a packet somewhere else than in this thread; `close` stops what is being drawn. */
export interface MakePacket {
  readonly make: (request: PacketRequest) => Promise<PacketAnswer>;
  readonly close: () => void;
}

const MOST_WAITING = 6;
const KEPT = 3;

export interface Packets {
  /** @throws Refused for what is no paper, no day or no option, and where the plan cannot be built. */
  readonly make: (request: PacketRequest) => Promise<Uint8Array>;
  readonly close: () => void;
}

/** One packet at a time, a few waiting, the last ones kept. */
export function packetsOf(maker: MakePacket): Packets {
  const kept = new Map<string, Promise<PacketAnswer>>();
  let line: Promise<unknown> = Promise.resolve();
  let waiting = 0;
  return {
    async make(request) {
      const { paper, today, option = '', labels = '' } = request;
      if (paper !== undefined && !PAPER_NAMES.some((name) => name === paper))
        throw new Refused('bad-request', `The paper is one of ${PAPER_NAMES.join(', ')}.`);
      if (!isDay(today)) throw new Refused('bad-request', 'A day is written as 2026-10-02.');
      if (option.length > 100 || labels.length > 100) throw new Refused('bad-request', 'That is no name of an option.');
      const key = createHash('sha256').update(JSON.stringify(request)).digest('hex');
      let job = kept.get(key);
      if (!job) {
        if (waiting >= MOST_WAITING)
          throw new Refused('too-many', 'Several packets are being drawn already. Wait a moment.', { retryAfter: 10 });
        waiting++;
        job = line.then(() => maker.make(request)).finally(() => waiting--);
        line = job.catch(() => undefined);
        kept.set(key, job);
        job.catch(() => kept.delete(key));
        if (kept.size > KEPT) kept.delete(kept.keys().next().value!);
      }
      const answer = await job;
      // what went wrong, or took too long, may go well when it is asked for again
      if (!answer.ok) {
        kept.delete(key);
        throw new Refused('cannot-be-built', answer.message, { issues: answer.issues });
      }
      return answer.pdf;
    },
    close: () => maker.close(),
  };
}
