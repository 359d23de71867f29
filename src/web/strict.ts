import { z } from 'zod';

// the content policy forbids making functions from text, which the schema library would otherwise try
z.config({ jitless: true });
