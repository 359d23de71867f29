import { basename } from 'node:path';
import rateLimit from '@fastify/rate-limit';
import Fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from 'fastify';
import type { Session } from '../core/workspace/index.ts';
import { accessOf } from './access.ts';
import { boundConnections, discardRest } from './connections.ts';
import type { Opened } from './database.ts';
import { type Announce, liveEvents } from './events.ts';
import { sweep } from './files.ts';
import { deviceName, keepGate } from './gate.ts';
import { keptPricesOf } from './kept-prices.ts';
import { keepLooking } from './look-around.ts';
import type { Replace } from './own-writes.ts';
import { type MakePacket, packetsOf } from './packets.ts';
import { servePages, strictHeaders } from './pages.ts';
import { plansOf } from './plans.ts';
import { noSuchAddress, Refused, refusalOf } from './refusal.ts';
import { deviceRoutes } from './routes/devices.ts';
import { eventRoute } from './routes/events.ts';
import { planRoutes } from './routes/plans.ts';
import type { Serving } from './routes/serving.ts';
import { shopRoutes } from './routes/shop.ts';
import { tickLogOf } from './tick-log.ts';

export interface AppOptions {
  /** The workspace folder, its real path. */
  readonly folder: string;
  /** The plan that was asked for, its name in the folder; empty for none. */
  readonly open: string;
  readonly database: Opened;
  /** Known once it listens. */
  readonly port: () => number;
  readonly lan: boolean;
  /** What only this machine knows. */
  readonly secret: () => Buffer;
  /** Further names of this machine on the local network. */
  readonly names?: readonly string[];
  /** Where the built pages are. */
  readonly web?: string;
  readonly makePacket: MakePacket;
  readonly readOnly?: string;
  /** For bugs and for what the person at this machine should see. */
  readonly log: (message: string) => void;
  readonly replace?: Replace;
  /** ms in which a request must have arrived whole; its headers in half of that. */
  readonly patience?: number;
  readonly today?: () => string;
}

declare module 'fastify' {
  interface FastifyInstance {
    /** A fresh pairing code, for the terminal. */
    newCode: () => ReturnType<ReturnType<typeof accessOf>['newCode']>;
  }
}

const SMALL = 64 * 1024;
/** Requests of one address in ten seconds: a page that saves while a size is dragged makes about a hundred. */
const MOST_REQUESTS = 600;

/** The server of one workspace folder, ready to listen; it goes on looking at the folder until it is closed. */
export async function buildApp(options: AppOptions): Promise<FastifyInstance> {
  const { folder, database, lan, names = [], port, log } = options;
  const { db } = database;
  const today = options.today ?? (() => new Date().toLocaleDateString('sv-SE'));
  const events = liveEvents();
  // a server that was begun on a plan goes on with it when its file is called otherwise
  let { open } = options;
  const announce: Announce = (event, by) => {
    if (event.type === 'plan-gone' && event.name === open) open = event.to ?? open;
    events.announce(event, by);
  };
  const plans = plansOf(folder, db, announce, options.replace);
  const tickLog = tickLogOf(db, plans, events.announce);
  const keptPrices = keptPricesOf(db, events.announce);
  const access = accessOf(db, options.secret);
  const packets = packetsOf(options.makePacket);
  const sessionOf = (request: FastifyRequest): Session => ({
    workspace: basename(folder),
    open,
    today: today(),
    device: deviceName(request),
    here: request.caller?.here ?? false,
    lan,
    ...(options.readOnly !== undefined && { readOnly: options.readOnly }),
    ...(database.forgetful !== undefined && { forgetful: database.forgetful }),
  });

  const app = bareApp(options.patience ?? 30_000);
  await strictHeaders(app);
  await limitRequests(app);
  keepGate(app, { access, port, lan, names });
  app.setErrorHandler((error: Error, request, reply) => answerFault(error, request, reply, log));

  const serving: Serving = { plans, tickLog, keptPrices, access, events, lan, port, today, sessionOf, log };
  deviceRoutes(app, serving);
  planRoutes(app, serving, packets);
  shopRoutes(app, serving);
  eventRoute(app, serving);
  app.all('/api/*', async () => {
    throw noSuchAddress();
  });
  await servePages(app, options.web);

  let paired: ReadonlySet<number> | undefined;
  const lookAround = async (): Promise<void> => {
    await plans.lookAround();
    await tickLog.lookAround();
    await keptPrices.lookAround();
    // another server of this folder may have let a device in, or forgotten one
    const before = paired;
    paired = new Set((await access.devices()).map(({ id }) => id));
    const gone = [...(before ?? [])].filter((id) => !paired?.has(id));
    for (const id of gone) events.drop(id);
    if (before && (gone.length > 0 || paired.size !== before.size)) events.announce({ type: 'devices' });
  };
  sweep(folder, Date.now());
  await lookAround();
  const looking = keepLooking(folder, lookAround, log);

  app.addHook('preClose', async () => {
    const looked = looking.stop();
    events.close();
    packets.close();
    await looked;
  });
  app.addHook('onClose', async () => {
    database.close();
  });
  app.decorate('newCode', () => access.newCode(port()));
  return app;
}

/** Takes in little, slowly and from few at a time, so that nobody can wear it out. `patience`: ms for a whole request. */
function bareApp(patience: number): FastifyInstance {
  const app = Fastify({
    bodyLimit: SMALL,
    forceCloseConnections: true,
    // slow bodies and headers do not hold a connection for ever
    requestTimeout: patience,
    connectionTimeout: 0,
    http: {
      headersTimeout: patience / 2,
      connectionsCheckingInterval: patience / 6,
      maxHeaderSize: 16 * 1024,
    },
    routerOptions: { maxParamLength: 300 },
  });
  boundConnections(app.server);
  // JSON only: a form of a foreign page can send text, but not JSON without asking first
  app.removeContentTypeParser('text/plain');
  return app;
}

async function limitRequests(app: FastifyInstance): Promise<void> {
  await app.register(rateLimit, {
    max: MOST_REQUESTS,
    timeWindow: 10_000,
    keyGenerator: (request) => request.ip,
    errorResponseBuilder: (_request, context) =>
      new Refused('too-many', 'Too many requests at once. Wait a moment.', {
        retryAfter: Math.ceil(context.ttl / 1000),
      }),
  });
}

/** Says what is wrong in words of our own; a bug is told to this machine only. */
function answerFault(
  error: Error & { statusCode?: number },
  request: FastifyRequest,
  reply: FastifyReply,
  log: AppOptions['log'],
): FastifyReply {
  const refused = refusalOf(error) ?? refusalOfStatus(error);
  if (!refused) log(`A fault of the workbench: ${error.stack ?? error.message}`);
  const { status, body } =
    refused ??
    new Refused('failed', 'A fault of the workbench. Nothing was written; what you have typed is still on your page.');
  if ('retryAfter' in body.error) reply.header('retry-after', String(body.error.retryAfter));
  if (!request.raw.complete) discardRest(request, reply);
  return reply.code(status).header('cache-control', 'no-store').send(body);
}

/** What the framework has refused by itself; undefined for a bug. */
function refusalOfStatus({ statusCode = 500, message }: Error & { statusCode?: number }): Refused | undefined {
  if (statusCode === 413) return new Refused('too-large', 'That is more than can be sent at once.');
  if (statusCode === 429) return new Refused('too-many', 'Too many requests at once. Wait a moment.');
  return statusCode >= 400 && statusCode < 500
    ? new Refused('bad-request', `The request cannot be read: ${message}.`)
    : undefined;
}
