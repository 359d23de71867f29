import type { FastifyInstance, FastifyRequest } from 'fastify';
import { API, CLIENT_HEADER, type Device } from '../core/workspace/index.ts';
import { type Access, cookieOf, isLocalHost, isLoopback, isOwnHost } from './access.ts';
import type { Who } from './plan-changes.ts';
import { Refused } from './refusal.ts';

declare module 'fastify' {
  interface FastifyRequest {
    /** Who asks, once they are let in. */
    caller: { readonly here: boolean; readonly device?: Device } | undefined;
  }
}

export interface Gate {
  readonly access: Access;
  /** Known once it listens. */
  readonly port: () => number;
  readonly lan: boolean;
  /** Further names of this machine on the local network. */
  readonly names: readonly string[];
}

const OURS_ONLY = 'Only the pages of the workbench itself may ask this.';

/** The cookie that a paired device carries; servers of one machine, told apart by their ports, keep out of one another's way. */
export const cookieName = (port: number): string => `setwright-${port}`;

/** Lets in what may come in, before anything of a request is read: this machine's own pages, and those of paired devices. */
export function keepGate(app: FastifyInstance, gate: Gate): void {
  app.decorateRequest('caller', undefined);
  app.addHook('onRequest', async (request, reply) => {
    isAddressed(request, gate);
    // by the route that will answer, not by how its address was written
    const route = request.routeOptions.url ?? '';
    const isApi = route.startsWith('/api/');
    if (isApi) reply.header('cache-control', 'no-store');
    isFromOurPages(request, isApi);
    request.caller = await callerOf(request, gate);
    if (isApi && route !== `${API}/pair` && !request.caller)
      throw new Refused(
        'not-paired',
        'This device is not paired with the workbench. Ask for a code on the machine itself.',
      );
  });
}

/** @throws Refused where a request names another server than this one: DNS rebinding comes under the foreign site's own name. */
function isAddressed({ headers, raw, url }: FastifyRequest, { port, lan, names }: Gate): void {
  if (!isOwnHost(headers.host, port(), lan, names))
    throw new Refused('forbidden', 'This is not the name the workbench was opened under.');
  // RFC 9112, section 3.2: two hosts are an error; and we are no proxy
  const hosts = raw.rawHeaders.filter((name, i) => i % 2 === 0 && name.toLowerCase() === 'host');
  if (hosts.length > 1 || !url.startsWith('/')) throw new Refused('bad-request', 'The request cannot be read.');
}

/** @throws Refused where another site's page, or a frame or a link of one, asks for data or wants to change something. */
function isFromOurPages({ method, headers }: FastifyRequest, isApi: boolean): void {
  const site = headers['sec-fetch-site'];
  if (isApi && site !== undefined && site !== 'same-origin' && site !== 'none')
    throw new Refused('forbidden', OURS_ONLY);
  if (method === 'GET' || method === 'HEAD') return;
  const own = `http://${headers.host}`.toLowerCase();
  if (headers.origin !== undefined && headers.origin.toLowerCase() !== own) throw new Refused('forbidden', OURS_ONLY);
  if (!/^[\w.:-]{1,64}$/.test(String(headers[CLIENT_HEADER] ?? '')))
    throw new Refused('forbidden', `A change names the page that makes it in the header ${CLIENT_HEADER}.`);
}

async function callerOf(
  { socket, headers }: FastifyRequest,
  { access, port, lan }: Gate,
): Promise<FastifyRequest['caller']> {
  const here = isLoopback(socket.remoteAddress) && isLocalHost(headers.host);
  if (here) return { here };
  const device = lan ? await access.deviceOf(cookieOf(headers.cookie, cookieName(port()))) : undefined;
  return device && { here, device };
}

/** @throws Refused for a device that is only paired. */
export function onlyHere({ caller }: FastifyRequest): void {
  if (!caller?.here) throw new Refused('forbidden', 'Only the machine that the workbench runs on may do this.');
}

/** What the machine itself goes by in the list of revisions. */
export const deviceName = ({ caller }: FastifyRequest): string => caller?.device?.name ?? 'this machine';

export const whoOf = (request: FastifyRequest): Who => ({
  device: deviceName(request),
  page: String(request.headers[CLIENT_HEADER]),
});
