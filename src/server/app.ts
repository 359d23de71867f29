import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync, watch } from 'node:fs';
import type { Server } from 'node:http';
import { basename, join } from 'node:path';
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import staticFiles from '@fastify/static';
import Fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from 'fastify';
import { readPlan } from '../core/plan/index.ts';
import {
  API,
  CLIENT_HEADER,
  type Device,
  type Devices,
  type Opening,
  type Plans as PlanList,
  type PriceBook,
  readRack,
  type Session,
  writePrices,
  writeRack,
} from '../core/workspace/index.ts';
import { accessOf, cookieOf, isLocalHost, isLoopback, isOwnHost } from './access.ts';
import type { Opened } from './database.ts';
import { type Announce, liveEvents } from './events.ts';
import { stemOf, sweep } from './files.ts';
import type { MakePacket } from './packets.ts';
import { packetsOf } from './packets.ts';
import { plansOf, type Replace, type Who } from './plans.ts';
import { Refused, refusalOf } from './refusal.ts';
import { bodyOf, wholeNumber } from './requests.ts';
import { shopOf } from './shop.ts';

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

const SMALL = 64 * 1024;
/** Of a body that is refused so much is still read, and thrown away. */
const MOST_DISCARDED = 64 * 1024 * 1024;
/** A plan of a million characters, each written as JSON writes the worst of them, is refused later and better by its own limit. */
const LARGE = 4 * 1024 * 1024;
/** Connections at a time, of all and of one address: browsers keep six and a stream for each page. */
const MOST_CONNECTIONS = 400;
const MOST_CONNECTIONS_OF_ONE = 150;
/** Requests of one address in ten seconds: a page that saves while a size is dragged makes about a hundred. */
const MOST_REQUESTS = 600;

/** What every answer carries. No script but our own, nothing from elsewhere, nothing that wants HTTPS: this is plain HTTP on a local network. */
const policy = (nonce?: string) => ({
  'default-src': ["'none'"],
  'script-src': ["'self'", "'wasm-unsafe-eval'"],
  'style-src': ["'self'", ...(nonce === undefined ? [] : [`'nonce-${nonce}'`])],
  'img-src': ["'self'", 'data:', 'blob:'],
  'font-src': ["'self'"],
  'connect-src': ["'self'"],
  'worker-src': ["'self'"],
  'manifest-src': ["'self'"],
  'base-uri': ["'none'"],
  'form-action': ["'self'"],
  'frame-ancestors': ["'none'"],
});
const policyText = (nonce?: string): string =>
  Object.entries(policy(nonce))
    .map(([name, sources]) => `${name} ${sources.join(' ')}`)
    .join('; ');

declare module 'fastify' {
  interface FastifyRequest {
    /** Who asks, once they are let in. */
    caller: { readonly here: boolean; readonly device?: Device } | undefined;
  }
}

export async function buildApp(options: AppOptions): Promise<FastifyInstance> {
  const { folder, database, lan, names = [], web, log, patience = 30_000 } = options;
  const { db } = database;
  const today = options.today ?? (() => new Date().toLocaleDateString('sv-SE'));
  const events = liveEvents();
  // a server that was begun on a plan goes on with it when its file is called otherwise
  let open = options.open;
  const announce: Announce = (event, by) => {
    if (event.type === 'plan-gone' && event.name === open) open = event.to ?? open;
    events.announce(event, by);
  };
  const plans = plansOf(folder, db, announce, options.replace);
  const shop = shopOf(db, plans, events.announce);
  const access = accessOf(db, options.secret);
  const packets = packetsOf(options.makePacket);

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
  app.decorateRequest('caller', undefined);

  await app.register(helmet, {
    contentSecurityPolicy: { useDefaults: false, directives: policy() },
    strictTransportSecurity: false,
    originAgentCluster: false,
    crossOriginOpenerPolicy: false,
    crossOriginResourcePolicy: { policy: 'same-origin' },
    referrerPolicy: { policy: 'no-referrer' },
    xFrameOptions: { action: 'deny' },
  });
  await app.register(rateLimit, {
    max: MOST_REQUESTS,
    timeWindow: 10_000,
    keyGenerator: (request) => request.ip,
    errorResponseBuilder: (_request, context) =>
      new Refused('too-many', 'Too many requests at once. Wait a moment.', {
        retryAfter: Math.ceil(context.ttl / 1000),
      }),
  });

  const cookie = (): string => `setwright-${options.port()}`;

  app.addHook('onRequest', async (request, reply) => {
    const { method, headers } = request;
    if (!isOwnHost(headers.host, options.port(), lan, names))
      throw new Refused('forbidden', 'This is not the name the workbench was opened under.');
    // RFC 9112, section 3.2: two hosts are an error; and we are no proxy
    const hosts = request.raw.rawHeaders.filter((name, i) => i % 2 === 0 && name.toLowerCase() === 'host');
    if (hosts.length > 1 || !request.url.startsWith('/'))
      throw new Refused('bad-request', 'The request cannot be read.');
    // by the route that will answer, not by how its address was written
    const route = request.routeOptions.url ?? '';
    const isApi = route.startsWith('/api/');
    if (isApi) reply.header('cache-control', 'no-store');
    // another site's page, or a frame or a link of one, has no business with the data
    const site = headers['sec-fetch-site'];
    if (isApi && site !== undefined && site !== 'same-origin' && site !== 'none')
      throw new Refused('forbidden', 'Only the pages of the workbench itself may ask this.');
    if (method !== 'GET' && method !== 'HEAD') {
      const own = `http://${headers.host}`.toLowerCase();
      if (headers.origin !== undefined && headers.origin.toLowerCase() !== own)
        throw new Refused('forbidden', 'Only the pages of the workbench itself may ask this.');
      if (!/^[\w.:-]{1,64}$/.test(String(headers[CLIENT_HEADER] ?? '')))
        throw new Refused('forbidden', `A change names the page that makes it in the header ${CLIENT_HEADER}.`);
    }
    const here = isLoopback(request.socket.remoteAddress) && isLocalHost(headers.host);
    if (here) request.caller = { here };
    else if (lan) {
      const device = await access.deviceOf(cookieOf(headers.cookie, cookie()));
      if (device) request.caller = { here, device };
    }
    const open = !isApi || route === `${API}/pair`;
    if (!open && !request.caller)
      throw new Refused(
        'not-paired',
        'This device is not paired with the workbench. Ask for a code on the machine itself.',
      );
  });

  app.setErrorHandler((error: Error & { statusCode?: number; code?: string }, request, reply) => {
    const refused =
      refusalOf(error) ??
      (error.statusCode === 413
        ? new Refused('too-large', 'That is more than can be sent at once.')
        : error.statusCode === 429
          ? new Refused('too-many', 'Too many requests at once. Wait a moment.')
          : error.statusCode !== undefined && error.statusCode >= 400 && error.statusCode < 500
            ? new Refused('bad-request', `The request cannot be read: ${error.message}.`)
            : undefined);
    if (!refused) log(`A fault of the workbench: ${error.stack ?? error.message}`);
    const answer =
      refused ??
      new Refused(
        'failed',
        'A fault of the workbench. Nothing was written; what you have typed is still on your page.',
      );
    if ('retryAfter' in answer.body.error) reply.header('retry-after', String(answer.body.error.retryAfter));
    if (!request.raw.complete) discardRest(request, reply);
    return reply.code(answer.status).header('cache-control', 'no-store').send(answer.body);
  });

  const whoOf = (request: FastifyRequest): Who => ({
    device: request.caller?.device?.name ?? 'this machine',
    page: String(request.headers[CLIENT_HEADER]),
  });
  const sessionOf = (request: FastifyRequest): Session => ({
    workspace: basename(folder),
    open,
    today: today(),
    device: request.caller?.device?.name ?? 'this machine',
    here: request.caller?.here ?? false,
    lan,
    ...(options.readOnly !== undefined && { readOnly: options.readOnly }),
    ...(database.forgetful !== undefined && { forgetful: database.forgetful }),
  });
  const onlyHere = (request: FastifyRequest): void => {
    if (!request.caller?.here)
      throw new Refused('forbidden', 'Only the machine that the workbench runs on may do this.');
  };
  type Named = { Params: { name: string } };

  // devices

  app.get(`${API}/opening`, async (request): Promise<Opening> => {
    const session = sessionOf(request);
    // what is wrong with the plan is told when it is asked for by itself
    const plan = session.open === '' ? undefined : await plans.read(session.open).catch(() => undefined);
    const read = plan && plans.soundIn(plan);
    return { session, plans: plans.list(), ...(plan && { plan }), ...(read && { read }) };
  });
  app.get(`${API}/session`, async (request): Promise<Session> => sessionOf(request));
  app.post(`${API}/pair`, async (request, reply): Promise<Session> => {
    if (!lan) throw new Refused('not-found', 'The workbench is open on this machine only; nothing is to be paired.');
    const { code, device } = bodyOf('pair', request.body);
    const { token, device: made } = await access.pair(code, device.trim(), request.ip);
    reply.header('set-cookie', `${cookie()}=${token}; Path=/; HttpOnly; SameSite=Strict; Max-Age=5184000`);
    request.caller = { here: false, device: made };
    events.announce({ type: 'devices' });
    log(`Paired with ${made.name.replace(/[^\p{L}\p{N} .'-]/gu, '?')}.`);
    return sessionOf(request);
  });
  app.post(`${API}/pair/code`, async (request) => {
    onlyHere(request);
    if (!lan) throw new Refused('not-found', 'Start the workbench with --lan to let other devices in.');
    return access.newCode(options.port());
  });
  app.get(`${API}/devices`, async (): Promise<Devices> => ({ devices: await access.devices() }));
  app.delete<{ Params: { id: string } }>(`${API}/devices/:id`, async (request, reply) => {
    const id = wholeNumber(request.params.id, 'A device', 1, 1e9)!;
    if (request.caller?.device?.id !== id) onlyHere(request);
    if (!(await access.forget(id))) throw new Refused('not-found', 'There is no such device.');
    events.drop(id);
    events.announce({ type: 'devices' });
    return reply.code(204).send();
  });

  // plans

  app.get(`${API}/plans`, async (): Promise<PlanList> => ({ plans: plans.list() }));
  app.post(`${API}/plans`, { bodyLimit: LARGE }, async (request, reply) => {
    const { name, text } = bodyOf('newPlan', request.body);
    return reply.code(201).send(await plans.create(name, text, whoOf(request)));
  });
  app.get<Named>(`${API}/plans/:name`, (request) => plans.read(request.params.name));
  app.put<Named>(`${API}/plans/:name`, { bodyLimit: LARGE }, (request) =>
    plans.save(request.params.name, bodyOf('save', request.body), whoOf(request)),
  );
  app.get<Named>(`${API}/plans/:name/export`, async (request, reply) => {
    const { name, text } = await plans.read(request.params.name);
    return download(reply, name, 'application/yaml; charset=utf-8', text);
  });
  app.get<Named & { Querystring: { before?: string; most?: string } }>(`${API}/plans/:name/revisions`, (request) =>
    plans.revisions(
      request.params.name,
      wholeNumber(request.query.before, 'before', 1, 1e9),
      wholeNumber(request.query.most, 'most', 1, 500) ?? 100,
    ),
  );
  app.get<{ Params: { name: string; number: string } }>(`${API}/plans/:name/revisions/:number`, (request) =>
    plans.revision(request.params.name, wholeNumber(request.params.number, 'A revision', 1, 1e9)!),
  );
  app.post<Named>(`${API}/plans/:name/restore`, (request) =>
    plans.restore(request.params.name, bodyOf('restore', request.body), whoOf(request)),
  );
  app.get<Named & { Querystring: Record<string, string | undefined> }>(
    `${API}/plans/:name/packet.pdf`,
    async (request, reply) => {
      if (Object.values(request.query).some((value) => typeof value !== 'string'))
        throw new Refused('bad-request', 'Each thing is asked once.');
      const { name, text } = await plans.read(request.params.name);
      const { option, paper, labels, today: day = today(), steps } = request.query;
      const pdf = await packets.make({
        text,
        today: day,
        ...(option !== undefined && { option }),
        ...(paper !== undefined && { paper }),
        ...(labels !== undefined && { labels }),
        ...(steps !== undefined && { steps: wholeNumber(steps, 'steps', 0, 1_000_000)! }),
      });
      return download(reply, `${stemOf(name)}.pdf`, 'application/pdf', Buffer.from(pdf));
    },
  );

  // rack and prices

  const soundPlan = (text: string) => {
    const { plan, issues } = readPlan(text);
    if (!plan) throw new Refused('not-a-plan', 'The plan cannot be read as it is.', { issues });
    return plan;
  };
  app.get<Named>(`${API}/plans/:name/rack.csv`, async (request, reply) => {
    const { name, text } = await plans.read(request.params.name);
    return download(reply, `${stemOf(name)} rack.csv`, CSV, writeRack(soundPlan(text)));
  });
  app.post<Named>(`${API}/plans/:name/rack`, { bodyLimit: LARGE }, async (request) => {
    const { csv, base, id } = bodyOf('rack', request.body);
    const { text } = await plans.revision(request.params.name, base);
    const read = readRack(csv, soundPlan(text));
    if (!read.ok)
      throw new Refused('bad-csv', 'The table was not read; the rack is as it was.', { issues: read.issues });
    return plans.save(
      request.params.name,
      { base, edits: read.value, ...(id !== undefined && { id }) },
      whoOf(request),
    );
  });
  app.get(`${API}/prices`, (): Promise<PriceBook> => shop.prices());
  app.post(`${API}/prices`, { bodyLimit: LARGE }, (request) =>
    shop.addPrices(bodyOf('prices', request.body).prices, whoOf(request)),
  );
  app.post(`${API}/prices/import`, { bodyLimit: LARGE }, (request) =>
    shop.importPrices(bodyOf('priceImport', request.body), whoOf(request)),
  );
  app.get(`${API}/prices.csv`, async (_request, reply) => {
    const { prices } = await shop.prices();
    const gone = new Set(prices.filter((price) => price.withdrawn).map((price) => price.id));
    return download(reply, 'prices.csv', CSV, writePrices(prices.filter((price) => !gone.has(price.id))));
  });
  app.put(`${API}/suppliers`, (request) => shop.putSupplier(bodyOf('supplier', request.body), whoOf(request)));

  // the shop

  app.get<Named & { Querystring: { after?: string } }>(`${API}/plans/:name/ticks`, (request) =>
    shop.ticks(request.params.name, wholeNumber(request.query.after, 'after', 0, 1e9) ?? 0),
  );
  app.post<Named>(`${API}/plans/:name/ticks`, { bodyLimit: 512 * 1024 }, (request) =>
    shop.tick(request.params.name, bodyOf('ticks', request.body), whoOf(request)),
  );

  app.get<{ Querystring: { after?: string; page?: string } }>(`${API}/events`, (request, reply) => {
    const last = request.headers['last-event-id'] ?? request.query.after;
    const { page } = request.query;
    const known = typeof page === 'string' && page.length <= 64 ? page : undefined;
    reply.hijack();
    const { raw } = reply;
    for (const [name, value] of Object.entries(reply.getHeaders())) if (value !== undefined) raw.setHeader(name, value);
    raw.setHeader('content-type', 'text/event-stream; charset=utf-8');
    raw.setHeader('x-accel-buffering', 'no');
    // a stream is not bound by the time a request may take
    request.socket.setTimeout(0);
    raw.flushHeaders();
    if (!events.connect(raw, Array.isArray(last) ? last[0] : last, request.ip, request.caller?.device?.id, known)) {
      raw.end('retry: 30000\n\n');
    }
  });

  app.all('/api/*', async () => {
    throw new Refused('not-found', 'The workbench has no such address.');
  });

  // the pages

  const index = web === undefined ? undefined : join(web, 'index.html');
  const page = (_request: FastifyRequest, reply: FastifyReply) => {
    if (index === undefined || !existsSync(index))
      return reply
        .code(503)
        .type('text/plain; charset=utf-8')
        .send('The pages of the workbench are not built. Run: npm run build');
    const nonce = randomBytes(16).toString('base64');
    return reply
      .header('content-security-policy', policyText(nonce))
      .header('cache-control', 'no-store')
      .type('text/html; charset=utf-8')
      .send(readFileSync(index, 'utf8').replaceAll('%NONCE%', nonce));
  };
  app.get('/', page);
  app.get('/index.html', page);
  if (web !== undefined && existsSync(web))
    await app.register(staticFiles, {
      root: web,
      wildcard: true,
      index: false,
      preCompressed: true,
      dotfiles: 'ignore',
      cacheControl: false,
      setHeaders: (response, path) => {
        // names with a hash in them never mean anything else
        const hashed = /[-.][\w-]{8,}\.\w+(?:\.(?:br|gz))?$/.test(basename(path)) && /[\\/]assets[\\/]/.test(path);
        response.header('cache-control', hashed ? 'public, max-age=31536000, immutable' : 'no-cache');
      },
    });
  app.setNotFoundHandler((request, reply) => {
    const isPage = request.method === 'GET' && !/\.\w+$/.test(request.url.split('?')[0]!);
    if (isPage && String(request.headers.accept ?? '').includes('text/html')) return page(request, reply);
    const { status, body } = new Refused('not-found', 'The workbench has no such address.');
    return reply.code(status).send(body);
  });

  // what other programs do in the folder

  let paired: ReadonlySet<number> | undefined;
  const lookAround = async (): Promise<void> => {
    await plans.lookAround();
    await shop.lookAround();
    // another server of this folder may have let a device in, or forgotten one
    const before = paired;
    paired = new Set((await access.devices()).map(({ id }) => id));
    const gone = [...(before ?? [])].filter((id) => !paired?.has(id));
    for (const id of gone) events.drop(id);
    if (before && (gone.length > 0 || paired.size !== before.size)) events.announce({ type: 'devices' });
  };
  sweep(folder, Date.now());
  await lookAround();
  let looking: Promise<void> | undefined;
  let again = false;
  let trouble: string | undefined;
  const look = (): void => {
    if (looking) {
      again = true;
      return;
    }
    looking = lookAround()
      .then(
        () => {
          trouble = undefined;
        },
        (error: Error) => {
          // said once, not with every look
          const words = `What other programs do in the workspace folder is not seen: ${refusalOf(error)?.message ?? error.message}`;
          if (words !== trouble) log(words);
          trouble = words;
        },
      )
      .finally(() => {
        looking = undefined;
        if (again) {
          again = false;
          look();
        }
      });
  };
  let soon: NodeJS.Timeout | undefined;
  const watcher = (() => {
    try {
      return watch(folder, { persistent: false }, () => {
        clearTimeout(soon);
        soon = setTimeout(look, 120);
      });
    } catch {
      return undefined; // the clock below sees it too, a little later
    }
  })();
  watcher?.on('error', () => watcher.close());
  const clock = setInterval(look, 3000);
  clock.unref();

  app.addHook('preClose', async () => {
    clearInterval(clock);
    clearTimeout(soon);
    watcher?.close();
    events.close();
    packets.close();
    await looking;
  });
  app.addHook('onClose', async () => {
    database.close();
  });
  app.decorate('newCode', () => access.newCode(options.port()));
  return app;
}

declare module 'fastify' {
  interface FastifyInstance {
    /** A fresh pairing code, for the terminal. */
    newCode: () => ReturnType<ReturnType<typeof accessOf>['newCode']>;
  }
}

/** Connections that are opened and left lying take none from others. */
function boundConnections(server: Server): void {
  server.maxConnections = MOST_CONNECTIONS;
  const open = new Map<string, number>();
  server.on('connection', (socket) => {
    const from = socket.remoteAddress ?? '';
    const count = (open.get(from) ?? 0) + 1;
    if (count > MOST_CONNECTIONS_OF_ONE) {
      socket.destroy();
      return;
    }
    open.set(from, count);
    socket.once('close', () => {
      const left = open.get(from)! - 1;
      if (left > 0) open.set(from, left);
      else open.delete(from);
    });
  });
}

/**
 * What is still being sent of a body that is refused is read and thrown away, up to a bound. A connection that is closed over unread bytes
 * is reset, and the answer is lost with it: RFC 9112, section 9.6.
 */
function discardRest({ raw }: FastifyRequest, reply: FastifyReply): void {
  const answer = reply.raw;
  const stays = answer.shouldKeepAlive;
  answer.shouldKeepAlive = true;
  reply.removeHeader('connection');
  let left = MOST_DISCARDED;
  raw.on('data', (chunk: Buffer) => {
    left -= chunk.length;
    if (left < 0) raw.destroy();
  });
  if (stays) return;
  const end = (): void => {
    if (answer.writableFinished && raw.complete) raw.socket.end();
  };
  answer.once('finish', end);
  raw.once('end', end);
}

const CSV = 'text/csv; charset=utf-8';

/** Bytes to be kept, never to be shown by the browser as a page of ours. */
function download(reply: FastifyReply, name: string, type: string, body: string | Buffer): FastifyReply {
  const plain = name.replace(/[^\x20-\x7e]|["\\%]/g, '_');
  return reply
    .header('content-type', type)
    .header('content-disposition', `attachment; filename="${plain}"; filename*=UTF-8''${encodeName(name)}`)
    .send(body);
}
/** RFC 8187, section 3.2: what is not an attribute character is written in per cent. */
const encodeName = (name: string): string =>
  encodeURIComponent(name).replace(/['()*]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`);
