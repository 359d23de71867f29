import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { z } from 'zod';
import { App } from './app.tsx';
import { openPlan } from './workspace.ts';

// the content policy forbids making functions from text, which the schema library would otherwise try
z.config({ jitless: true });

createRoot(document.getElementById('bench')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
void openPlan();
