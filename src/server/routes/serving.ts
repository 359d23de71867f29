import type { FastifyRequest } from 'fastify';
import type { Session } from '../../core/workspace/index.ts';
import type { Access } from '../access.ts';
import type { Events } from '../events.ts';
import type { KeptPrices } from '../kept-prices.ts';
import type { Plans } from '../plans.ts';
import type { TickLog } from '../tick-log.ts';

/** What the routes answer from. */
export interface Serving {
  readonly plans: Plans;
  readonly tickLog: TickLog;
  readonly keptPrices: KeptPrices;
  readonly access: Access;
  readonly events: Events;
  readonly lan: boolean;
  readonly port: () => number;
  readonly today: () => string;
  readonly sessionOf: (request: FastifyRequest) => Session;
  /** For what the person at this machine should see. */
  readonly log: (message: string) => void;
}

/** A route about one plan. */
export interface Named {
  Params: { name: string };
}

/** Bytes of a body that brings a table or a plan: a million characters, each written as JSON writes the worst of them. */
export const LARGE = 4 * 1024 * 1024;
