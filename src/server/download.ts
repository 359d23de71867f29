import type { FastifyReply } from 'fastify';

export const CSV = 'text/csv; charset=utf-8';

/** Bytes to be kept, never to be shown by the browser as a page of ours. */
export function download(reply: FastifyReply, name: string, type: string, body: string | Buffer): FastifyReply {
  const plain = name.replace(/[^\x20-\x7e]|["\\%]/g, '_');
  return reply
    .header('content-type', type)
    .header('content-disposition', `attachment; filename="${plain}"; filename*=UTF-8''${encodeName(name)}`)
    .send(body);
}
/** RFC 8187, section 3.2: what is not an attribute character is written in per cent. */
const encodeName = (name: string): string =>
  encodeURIComponent(name).replace(/['()*]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`);
