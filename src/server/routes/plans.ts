import type { FastifyInstance } from 'fastify';
import { API, type Plans as PlanList } from '../../core/workspace/index.ts';
import { download } from '../download.ts';
import { stemOf } from '../files.ts';
import { whoOf } from '../gate.ts';
import type { Packets } from '../packets.ts';
import { Refused } from '../refusal.ts';
import { bodyOf, wholeNumber } from '../requests.ts';
import { LARGE, type Named, type Serving } from './serving.ts';

/** Plans, their revisions, and what is printed of them. */
export function planRoutes(app: FastifyInstance, { plans, today }: Serving, packets: Packets): void {
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
}
