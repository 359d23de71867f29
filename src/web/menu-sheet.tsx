import { type ReactNode, useState } from 'preact/compat';
import { explain } from '../core/issue/index.ts';
import { readPlan } from '../core/plan/index.ts';
import { API } from '../core/workspace/index.ts';
import { useBench } from './bench.ts';
import { chosen } from './chosen.ts';
import Devices from './devices.tsx';
import { Choice } from './field.tsx';
import { fileName } from './file-name.ts';
import { PlanList } from './plan-list.tsx';
import { putOn, THEMES, type Theme, themeNow } from './theme.ts';
import { newPlan, planPath, useDesk } from './workspace.ts';

/** Plans, printing, other devices, light and dark. */
export default function MenuSheet({ print, onDone }: { readonly print: ReactNode; readonly onDone: () => void }) {
  const name = useBench((b) => b.name);
  const session = useDesk((d) => d.session);
  const [theme, setTheme] = useState<Theme>(themeNow);
  return (
    <>
      <h3>Plans in {session?.workspace ?? 'this folder'}</h3>
      <PlanList lying={name} onDone={onDone} />
      <div className="buttons">
        <button
          type="button"
          onClick={() => {
            onDone();
            useDesk.setState({ state: 'empty', why: '' });
          }}
        >
          New plan
        </button>
        <a className="button" href={`${API}${planPath(name)}/export`} download>
          Save a copy of this plan
        </a>
        {print}
        <ImportPlan onDone={onDone} />
      </div>
      <h3>Look</h3>
      <Choice
        name="Paper and ink"
        value={theme}
        of={THEMES.map((t) => [t, t === 'system' ? 'as the system' : t] as const)}
        onChange={(next) => {
          setTheme(next);
          putOn(next);
        }}
      />
      {session?.here && session.lan && <Devices />}
    </>
  );
}

/** A plan file from elsewhere, read and put into the folder under its own name, or the next free one. */
function ImportPlan({ onDone }: { readonly onDone: () => void }) {
  const plans = useDesk((d) => d.plans);
  const [wrong, setWrong] = useState('');
  const bring = async (file: File) => {
    const text = await file.text();
    const { plan, issues } = readPlan(text, { file: file.name });
    if (!plan) return setWrong(issues[0] ? explain(issues[0]) : `${file.name}: this is not a plan`);
    const taken = plans.map((p) => p.name);
    const refused = await newPlan(fileName(file.name.replace(/(\.plan)?\.ya?ml$/i, ''), taken), text);
    setWrong(refused ?? '');
    if (refused === undefined) onDone();
  };
  return (
    <>
      <label className="button">
        Bring a plan file in
        <input
          className="unseen"
          type="file"
          accept=".yaml,.yml"
          onChange={(e) => {
            const file = chosen(e.currentTarget, 'plan', setWrong);
            if (file) void bring(file);
          }}
        />
      </label>
      {wrong !== '' && <p role="alert">{wrong}</p>}
    </>
  );
}
