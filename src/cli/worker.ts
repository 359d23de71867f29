import { parentPort, workerData } from 'node:worker_threads';
import { LABEL_SHEETS, type PaperName } from '../core/drawing/index.ts';
import { findOption, type Outcome, workOut } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { packetOf } from '../print/index.ts';
import type { PacketAnswer, PacketRequest } from '../server/index.ts';
import { readFonts } from './fonts.ts';
import { placed } from './plan-file.ts';

/** One packet in a thread of its own, by the same steps as `setwright packet`, so that the bytes are the same. */
async function answer(request: PacketRequest): Promise<PacketAnswer> {
  const { text, today, option: wanted, paper, labels, steps } = request;
  const { plan, issues, document } = readPlan(text);
  if (!plan) return { ok: false, message: 'The plan cannot be read as it is.', issues };
  const chosen = findOption(plan, wanted);
  if (!chosen) return { ok: false, message: 'The plan has no such option.', issues: [] };
  if (labels !== undefined && !Object.hasOwn(LABEL_SHEETS, labels))
    return {
      ok: false,
      message: `There is no such sheet of labels; there are ${Object.keys(LABEL_SHEETS).join(', ')}.`,
      issues: [],
    };
  const outcomes = [chosen, ...plan.options.filter((option) => option !== chosen)].map((option) =>
    workOut(plan, option, { today, effort: { ...(steps !== undefined && { steps }) } }),
  );
  const wrong = outcomes.flatMap((outcome) => outcome.issues);
  if (wrong.length > 0)
    return {
      ok: false,
      message: 'The plan cannot be built as it is.',
      issues: placed({ plan, file: 'the plan', document }, wrong),
    };
  const { pdf } = await packetOf(
    outcomes as [Outcome, ...Outcome[]],
    { today, paper: paper as PaperName | undefined, labels },
    readFonts(),
  );
  return { ok: true, pdf };
}

parentPort?.postMessage(await answer(workerData as PacketRequest));
