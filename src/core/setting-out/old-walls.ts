import type { Note } from '../notes/index.ts';
import type { WallInput } from '../strength/index.ts';

/** United States: paint of houses from before 1978 is presumed to hold lead. Source: 40 CFR 745, subpart E. */
const LEAD_YEAR = 1978;
/** United Kingdom: buildings from before 2000 may hold asbestos. Source: HSE, Control of Asbestos Regulations 2012, L143. */
const ASBESTOS_YEAR = 2000;

/** Facings that have held asbestos; plaster whose table says that brick or tile lies under it is none. */
const SUSPECT = /(?<!brick or )tile|textur|artex|popcorn|vinyl|asphalt|board insulation/i;

/** What old walls may give off when they are drilled, sanded or opened: from the year of the house and what the walls are faced with. */
export function oldWallNotes({ plan }: Pick<WallInput, 'plan'>): readonly Note[] {
  const { built, walls } = plan.room;
  const notes: Note[] = [];
  const faced = walls.filter((w) => SUSPECT.test(w.surface ?? ''));
  const facings = `${faced.map((w) => w.id).join(', ')}: ${[...new Set(faced.map((w) => w.surface))].join(', ')}`;
  if (built !== undefined && built < LEAD_YEAR)
    notes.push({
      id: 'old-paint',
      about: 'room',
      verdict: 'caution',
      title: `A house of ${built}: its paint may hold lead`,
      advice:
        'Have it tested before anything is sanded, scraped or drilled. Wet, do not dry-sand; sheet off, clean with a vacuum with a fine filter, keep children and pregnant women away; in many places only trained people may disturb it (US 40 CFR 745: houses from before 1978).',
    });
  if ((built !== undefined && built < ASBESTOS_YEAR) || (built === undefined && faced.length > 0))
    notes.push({
      id: 'old-boards',
      about: 'room',
      verdict: 'caution',
      title:
        built === undefined
          ? `${facings}, its boards, coatings and adhesives may hold asbestos`
          : `A house of ${built}: boards, textured coatings, fillers, tiles and their adhesive may hold asbestos${faced.length > 0 ? `; look first at ${facings}` : ''}`,
      advice:
        'Before drilling or taking anything off, have a sample tested by a laboratory. Do not sand, scrape, drill or break what is not known; where it does hold asbestos leave it to a licensed trade. Buildings from before 2000 are presumed to hold it where nobody has looked (HSE L143).',
    });
  return notes;
}
