import { accessSync, constants, existsSync, realpathSync, statSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { basename, dirname } from 'node:path';
import type { PairingCode } from '../core/workspace/index.ts';
import { buildApp } from './app.ts';
import { openDatabase } from './database.ts';
import { planName } from './files.ts';
import { machineSecret, stateFolder } from './machine.ts';
import type { MakePacket } from './packets.ts';

export interface BenchOptions {
  /** The plan file; the folder it lies in is the workspace. Or a folder, to begin with the plans that are in it. */
  readonly plan: string;
  /** 0 takes any that is free. */
  readonly port: number;
  readonly lan: boolean;
  readonly names?: readonly string[];
  readonly web?: string;
  readonly makePacket: MakePacket;
  readonly log: (message: string) => void;
}
export interface Bench {
  readonly address: string;
  readonly folder: string;
  readonly newCode: () => PairingCode;
  readonly close: () => Promise<void>;
}

/** The workbench of one workspace folder, listening. @throws the system's error when the plan or the port cannot be had. */
export async function openBench(options: BenchOptions): Promise<Bench> {
  const given = realpathSync(options.plan);
  const isFolder = statSync(given).isDirectory();
  const folder = isFolder ? given : dirname(given);
  const name = isFolder ? '' : basename(given);
  if (!isFolder && (!statSync(given).isFile() || !planName(name)))
    throw new Error(`${name} cannot be the name of a plan: a file name ending in .yaml`);
  const database = openDatabase(folder);
  if (database.remark) options.log(database.remark);
  if (database.forgetful) options.log(database.forgetful);
  const readOnly = whyReadOnly(folder);
  if (readOnly) options.log(readOnly);
  let port = options.port;
  const app = await buildApp({
    folder,
    open: name,
    database,
    port: () => port,
    lan: options.lan,
    secret: machineSecret(stateFolder()),
    makePacket: options.makePacket,
    log: options.log,
    ...(options.names && { names: options.names }),
    ...(options.web !== undefined && existsSync(options.web) && { web: options.web }),
    ...(readOnly !== undefined && { readOnly }),
  });
  try {
    await app.listen({ port, host: options.lan ? '0.0.0.0' : '127.0.0.1' });
  } catch (error) {
    await app.close();
    throw error;
  }
  port = (app.server.address() as AddressInfo).port;
  return { address: `http://127.0.0.1:${port}/`, folder, newCode: app.newCode, close: () => app.close() };
}

function whyReadOnly(folder: string): string | undefined {
  try {
    accessSync(folder, constants.W_OK);
    return undefined;
  } catch {
    return `The folder ${basename(folder)} may not be written: plans can be looked at, and nothing can be saved.`;
  }
}
