// The program files that come with the page, of those in examples/programs: criteria and amounts by which a worksheet is filled in.
// Any other is taken as a file; the energy code stands beside each package anyhow.
import starBest from '../../../examples/programs/energy_star_most_efficient.csv';
import star from '../../../examples/programs/energy_star_windows.csv';
import credit from '../../../examples/programs/federal_25c.csv';
import invented from '../../../examples/programs/juniper_flat_power_2026.csv';
import {Table} from '../model/table.js';

const bytes = (text) => new TextEncoder().encode(text);

/* The names that stand in a program file, each once: of the program, or of its zones. */
export function namesIn(file, column) {
  const t = Table.read(file);
  return [...new Set(Array.from({length: t.rows}, (_, r) => t.cell(r, column)))].filter(Boolean);
}

/* [name, bytes]: by the program's name and edition. */
export const PROGRAMS = [star, starBest, credit, invented].map(bytes).map((file) => {
  const editions = namesIn(file, 'edition'), [name] = namesIn(file, 'program');
  return [editions.length === 1 && !name.includes(editions[0]) ? `${name} ${editions[0]}` : name, file];
});

/* Those one has to choose from; rows of "all" hold in each. */
export const zonesIn = (file) => namesIn(file, 'zone').filter((zone) => zone !== 'all');
