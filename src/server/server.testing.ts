import { mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance, InjectOptions } from 'fastify';
import { API, CLIENT_HEADER } from '../core/workspace/index.ts';
import { type AppOptions, buildApp } from './app.ts';
import { openDatabase } from './database.ts';

/** A plan small enough to read in a test. */
export const PLAN = `setwright: 1
title: Back wall # as measured
units: {length: in, currency: USD}
room:
  ceiling: 96
  walls:
    - {id: north, length: 160}
    - {id: east, length: 120}
    - {id: south, length: 160}
    - {id: west, length: 120}
options:
  - id: low
    pieces:
      # holds the scores
      - case: scores
        wall: north
        from: 6
        size: {width: 54, height: 30, depth: 16}
        make: {panel: ply}
stock:
  panels:
    - {id: ply, thickness: 0.7, sizes: [{length: 96, width: 48, price: 60}]}
  rack:
    - {id: left, stock: ply, length: 30, width: 12}
`;
export const NAME = 'wall.plan.yaml';
export const SECRET = Buffer.alloc(32, 7);

export interface Trial {
  readonly app: FastifyInstance;
  readonly folder: string;
  readonly file: string;
  readonly text: () => string;
  readonly log: string[];
  /** A request as our own page makes it. */
  readonly ask: (
    method: InjectOptions['method'] & string,
    path: string,
    body?: unknown,
    more?: Partial<InjectOptions>,
  ) => Promise<Answer>;
  readonly close: () => Promise<void>;
}
export interface Answer {
  readonly status: number;
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every kind
  readonly body: any;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly raw: Buffer;
}

export const newFolder = (): string => realpathSync(mkdtempSync(join(tmpdir(), 'setwright-bench-')));

/** A workbench on a folder of its own, without a socket. */
export async function trial(changes: Partial<AppOptions> = {}, folder = newFolder()): Promise<Trial> {
  const file = join(folder, NAME);
  if (!changes.database) {
    try {
      readFileSync(file);
    } catch {
      writeFileSync(file, PLAN);
    }
  }
  const log: string[] = [];
  const app = await buildApp({
    folder,
    open: NAME,
    database: openDatabase(folder),
    port: () => 80,
    lan: false,
    secret: () => SECRET,
    makePacket: {
      make: async ({ text, today }) => ({ ok: true, pdf: Buffer.from(`${today} ${text.length}`) }),
      close: () => undefined,
    },
    log: (message) => void log.push(message),
    today: () => '2026-05-04',
    ...changes,
  });
  return {
    app,
    folder,
    file,
    log,
    text: () => readFileSync(file, 'utf8'),
    ask: async (method, path, body, more = {}) => {
      const { headers, ...rest } = more;
      const answer = await app.inject({
        method,
        url: path.startsWith('/') ? path : `${API}/${path}`,
        remoteAddress: '127.0.0.1',
        ...(body !== undefined && { payload: body as object }),
        ...rest,
        headers: {
          host: 'localhost',
          [CLIENT_HEADER]: 'page-1',
          ...(method !== 'GET' && { origin: 'http://localhost' }),
          ...headers,
        },
      });
      const isJson = String(answer.headers['content-type']).includes('json');
      return {
        status: answer.statusCode,
        body: isJson ? answer.json() : answer.body,
        headers: answer.headers,
        raw: answer.rawPayload,
      };
    },
    close: async () => {
      await app.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
