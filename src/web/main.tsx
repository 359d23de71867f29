import './strict.ts';
import { render } from 'preact/compat';
import 'virtual:sheets.css';
import './style.css';
import { App } from './app.tsx';
import { openPlan } from './workspace.ts';

render(<App />, document.getElementById('bench')!);
void openPlan();
