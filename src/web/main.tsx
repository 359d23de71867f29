import './strict.ts';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import 'virtual:sheets.css';
import './style.css';
import { App } from './app.tsx';
import { openPlan } from './workspace.ts';

createRoot(document.getElementById('bench')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
void openPlan();
