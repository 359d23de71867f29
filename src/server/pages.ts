import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import helmet from '@fastify/helmet';
import staticFiles from '@fastify/static';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { noSuchAddress } from './refusal.ts';

/** No script but our own, nothing from elsewhere, nothing that wants HTTPS: this is plain HTTP on a local network. */
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
const policyText = (nonce: string): string =>
  Object.entries(policy(nonce))
    .map(([name, sources]) => `${name} ${sources.join(' ')}`)
    .join('; ');

/** What every answer carries, of the pages and of the data. */
export const strictHeaders = async (app: FastifyInstance): Promise<void> => {
  await app.register(helmet, {
    contentSecurityPolicy: { useDefaults: false, directives: policy() },
    strictTransportSecurity: false,
    originAgentCluster: false,
    crossOriginOpenerPolicy: false,
    crossOriginResourcePolicy: { policy: 'same-origin' },
    referrerPolicy: { policy: 'no-referrer' },
    xFrameOptions: { action: 'deny' },
  });
};

/** The built pages, from where they are; an address of none of them that asks for a page gets the first, which finds its own way. */
export async function servePages(app: FastifyInstance, web: string | undefined): Promise<void> {
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
    const { status, body } = noSuchAddress();
    return reply.code(status).send(body);
  });
}
