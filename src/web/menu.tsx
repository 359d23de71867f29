import { memo, useRef, useState } from 'preact/compat';
import type { PaperName } from '../core/drawing/index.ts';
import { explain } from '../core/issue/index.ts';
import { readPlan } from '../core/plan/index.ts';
import { API } from '../core/workspace/index.ts';
import { useBench } from './bench.ts';
import { Choice } from './field.tsx';
import { fileName } from './file-name.ts';
import { later } from './later.tsx';
import { putOn, THEMES, type Theme, themeNow } from './theme.ts';
import { today } from './today.ts';
import { newPlan, openPlan, planPath, useDesk } from './workspace.ts';

const Devices = later(() => import('./devices.tsx'));

/** Plans, printing, other devices, light and dark. */
function Menu({ option, paper }: { readonly option: string; readonly paper: PaperName }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const name = useBench((b) => b.name);
  const { plans, session } = useDesk();
  const [theme, setTheme] = useState<Theme>(themeNow);
  const wanted = new URLSearchParams({ option, paper, today: today() });
  const packet = `${API}${planPath(name)}/packet.pdf?${wanted}`;
  return (
    <>
      <PrintPacket href={packet} />
      <button type="button" aria-haspopup="dialog" onClick={() => dialog.current?.showModal()}>
        More
      </button>
      <dialog
        ref={dialog}
        aria-labelledby="menu-title"
        onPointerDown={(e) => e.target === dialog.current && dialog.current?.close()}
      >
        <div className="dialog-body">
          <h2 id="menu-title">Plans and more</h2>
          <h3>Plans in {session?.workspace ?? 'this folder'}</h3>
          <ul className="plans">
            {plans.map((plan) => (
              <li key={plan.name}>
                <button
                  type="button"
                  disabled={plan.name === name}
                  onClick={() => {
                    dialog.current?.close();
                    void openPlan(plan.name);
                  }}
                >
                  {plan.title} <small>{plan.name}</small>
                </button>
              </li>
            ))}
          </ul>
          <div className="buttons">
            <button
              type="button"
              onClick={() => {
                dialog.current?.close();
                useDesk.setState({ state: 'empty', why: '' });
              }}
            >
              New plan
            </button>
            <a className="button" href={`${API}${planPath(name)}/export`} download>
              Save a copy of this plan
            </a>
            <PrintPacket href={packet} />
          </div>
          <ImportPlan onDone={() => dialog.current?.close()} />
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
          <button type="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </div>
      </dialog>
    </>
  );
}

function PrintPacket({ href }: { readonly href: string }) {
  return (
    <a className="button print-packet" href={href} target="_blank" rel="noreferrer">
      Print packet
    </a>
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
            const file = e.currentTarget.files?.[0];
            e.currentTarget.value = '';
            if (file) void bring(file);
          }}
        />
      </label>
      {wrong !== '' && <p role="alert">{wrong}</p>}
    </>
  );
}

export default memo(Menu);
