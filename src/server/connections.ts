import type { Server } from 'node:http';
import type { FastifyReply, FastifyRequest } from 'fastify';

/** Of a body that is refused so much is still read, and thrown away. */
const MOST_DISCARDED = 64 * 1024 * 1024;
/** Connections at a time, of all and of one address: browsers keep six and a stream for each page. */
const MOST_CONNECTIONS = 400;
const MOST_CONNECTIONS_OF_ONE = 150;

/** Connections that are opened and left lying take none from others. */
export function boundConnections(server: Server): void {
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
export function discardRest({ raw }: FastifyRequest, reply: FastifyReply): void {
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
