/**
 * `npm run fuzz -- [KEYS] [SEED ...]`: random keys and pastes through the real
 * wizard, 20,000 for each seed unless told otherwise. Ends with code 1 when
 * something broke.
 */
import {fuzz} from './walk.ts';

const [keys = 20_000, ...seeds] = process.argv.slice(2).map(Number);
for (const seed of seeds.length > 0 ? seeds : [1]) {
	const start = performance.now();
	try {
		const {stages, kinds, ...counts} = fuzz({seed, keys});
		const seconds = Math.round((performance.now() - start) / 1000);
		console.log(`seed ${seed}: ${list(counts)}; ${seconds} s`);
		console.log(`  keys at: ${list(stages)}`);
		console.log(`  facts: ${list(kinds)}`);
	} catch (error) {
		console.log(error instanceof Error ? error.message : error);
		process.exitCode = 1;
	}
}

function list(counts: Readonly<Record<string, number>>): string {
	return Object.entries(counts)
		.map(([name, count]) => `${name} ${count}`)
		.join(', ');
}
