import {expect, test} from 'vitest';
import {fuzz} from './walk.ts';

/** How many keys; `npm run fuzz` does 20,000 and more seeds. */
const keys = Number(process.env.EVENFLOAT_FUZZ ?? 2000);
const seed = Number(process.env.EVENFLOAT_SEED ?? 1);

test(
	`${keys} random keys and pastes over practice and typed set-ups, seed ${seed}: no law breaks`,
	() => {
		const tally = fuzz({seed, keys});
		// It came somewhere: facts of many kinds at many stages, frames drawn, entries refused.
		expect(Object.keys(tally.stages).length).toBeGreaterThanOrEqual(5);
		expect(Object.keys(tally.kinds).length).toBeGreaterThanOrEqual(8);
		// One in three set-ups stands at the clamps from the start.
		expect(tally.stages['re-lock']).toBeGreaterThan(keys / 100);
		expect(tally.stages['final-check']).toBeGreaterThan(0);
		expect(tally.frames).toBeGreaterThan(keys / 100);
		expect(tally.refused).toBeGreaterThan(0);
	},
	60_000 + keys * 200,
);
