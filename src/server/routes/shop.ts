import type { FastifyInstance } from 'fastify';
import { type Plan, readPlan } from '../../core/plan/index.ts';
import { API, type PriceBook, readRack, writePrices, writeRack } from '../../core/workspace/index.ts';
import { CSV, download } from '../download.ts';
import { stemOf } from '../files.ts';
import { whoOf } from '../gate.ts';
import { Refused } from '../refusal.ts';
import { bodyOf, wholeNumber } from '../requests.ts';
import { LARGE, type Named, type Serving } from './serving.ts';

/** What is on the rack, what things cost, and what was done in the shop. */
export function shopRoutes(app: FastifyInstance, { plans, tickLog, keptPrices }: Serving): void {
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

  app.get(`${API}/prices`, (): Promise<PriceBook> => keptPrices.prices());
  app.post(`${API}/prices`, { bodyLimit: LARGE }, (request) =>
    keptPrices.addPrices(bodyOf('prices', request.body).prices, whoOf(request)),
  );
  app.post(`${API}/prices/import`, { bodyLimit: LARGE }, (request) =>
    keptPrices.importPrices(bodyOf('priceImport', request.body), whoOf(request)),
  );
  app.get(`${API}/prices.csv`, async (_request, reply) => {
    const { prices } = await keptPrices.prices();
    const gone = new Set(prices.filter((price) => price.withdrawn).map((price) => price.id));
    return download(reply, 'prices.csv', CSV, writePrices(prices.filter((price) => !gone.has(price.id))));
  });
  app.put(`${API}/suppliers`, (request) => keptPrices.putSupplier(bodyOf('supplier', request.body), whoOf(request)));

  app.get<Named & { Querystring: { after?: string } }>(`${API}/plans/:name/ticks`, (request) =>
    tickLog.ticks(request.params.name, wholeNumber(request.query.after, 'after', 0, 1e9) ?? 0),
  );
  app.post<Named>(`${API}/plans/:name/ticks`, { bodyLimit: 512 * 1024 }, (request) =>
    tickLog.tick(request.params.name, bodyOf('ticks', request.body), whoOf(request)),
  );
}

/** @throws Refused where the text is no plan. */
function soundPlan(text: string): Plan {
  const { plan, issues } = readPlan(text);
  if (!plan) throw new Refused('not-a-plan', 'The plan cannot be read as it is.', { issues });
  return plan;
}
