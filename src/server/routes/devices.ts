import type { FastifyInstance } from 'fastify';
import { API, type Devices, type Opening, type Session } from '../../core/workspace/index.ts';
import { cookieName, onlyHere } from '../gate.ts';
import { Refused } from '../refusal.ts';
import { bodyOf, wholeNumber } from '../requests.ts';
import type { Serving } from './serving.ts';

/** Who is at the bench: the first answer to a page, and the pairing of devices. */
export function deviceRoutes(
  app: FastifyInstance,
  { plans, access, events, lan, port, sessionOf, log }: Serving,
): void {
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
    reply.header('set-cookie', `${cookieName(port())}=${token}; Path=/; HttpOnly; SameSite=Strict; Max-Age=5184000`);
    request.caller = { here: false, device: made };
    events.announce({ type: 'devices' });
    log(`Paired with ${made.name.replace(/[^\p{L}\p{N} .'-]/gu, '?')}.`);
    return sessionOf(request);
  });
  app.post(`${API}/pair/code`, async (request) => {
    onlyHere(request);
    if (!lan) throw new Refused('not-found', 'Start the workbench with --lan to let other devices in.');
    return access.newCode(port());
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
}
