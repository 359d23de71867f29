import type { FastifyInstance } from 'fastify';
import { API } from '../../core/workspace/index.ts';
import type { Serving } from './serving.ts';

/** The stream of what happens, an answer that does not end: HTML standard, section 9.2, server-sent events. */
export function eventRoute(app: FastifyInstance, { events }: Serving): void {
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
}
