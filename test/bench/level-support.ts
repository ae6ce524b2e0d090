/**
 * `npm run bench:support [guitars] [first seed]`: level and in tune from a
 * support at the wished height. Every string set once on the support, the
 * support out, the claw turned by ear; on guitars never seen whose plate would
 * stand up to 4 mm off at the tail and whose strings came in off by up to 40 cents.
 */
import {quantile} from 'simple-statistics';
import {rngFrom} from '../../source/numeric/rng.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {drawGuitar, ensembles} from '../../source/practice/index.ts';
import {openCents} from '../../source/practice/sound.ts';
import {tailM} from '../../source/practice/read.ts';
import {firstBelief} from './first-belief.ts';
import {printSourceStamp} from './source-stamp.ts';
import {type Pass, supportedPass} from './tool-pass.ts';

const plateOffM = 0.004;
const plateToleranceM = 0.0003;

interface Ended {
	readonly plate: boolean;
	readonly strings: boolean;
	readonly over: number;
	readonly clawTurns: number;
}

function endedOf({guitar, adjustments, clawTurns, finished}: Pass): Ended {
	const wishM = guitar.spec.wishTailM ?? 0;
	return {
		plate: Math.abs(tailM(guitar) - wishM) <= plateToleranceM,
		strings:
			finished && guitar.strings.every((_, at) => Math.abs(openCents(guitar, at) ?? 1200) <= usualGoal.toleranceCents),
		over: adjustments - guitar.strings.length,
		clawTurns,
	};
}

function row(name: string, ends: readonly Ended[]): void {
	const share = (test: (end: Ended) => boolean) => `${((100 * ends.filter(test).length) / ends.length).toFixed(1)} %`;
	const overs = ends.map(({over}) => over);
	const clawTurns = ends.reduce((sum, end) => sum + end.clawTurns, 0) / ends.length;
	console.log(
		`  ${name.padEnd(34)}${share(({plate, strings}) => plate && strings).padEnd(11)}${share(({plate}) => plate).padEnd(13)}${share(({strings}) => strings).padEnd(15)}${clawTurns.toFixed(2).padEnd(12)}strings + ${quantile(overs, 0.5)}, + ${quantile(overs, 0.95).toFixed(0)}`,
	);
}

const [count = '120', first = '50000'] = process.argv.slice(2);
printSourceStamp();
const seeds = Array.from({length: Number(count)}, (_, index) => Number(first) + index);
const run = (mostClawTurns: number): readonly Ended[] =>
	seeds.map(seed => {
		const spec = ensembles[seed % ensembles.length]!.spec;
		const off = (2 * rngFrom(seed, 9).uniform() - 1) * plateOffM;
		const guitar = drawGuitar(rngFrom(seed, 1), spec, {start: 'drift', plateOffM: off});
		return endedOf(
			supportedPass(rngFrom(seed, 2), guitar, firstBelief(guitar, false, false), usualGoal, {mostClawTurns}),
		);
	});
console.log(`plate up to 4 mm off, ${count} guitars never seen, on a level support first`);
console.log(
	'  claw turned by ear                level+tune plate 0.3mm  strings ±2     claw turns  all adjustments, median, 95th',
);
row('once', run(1));
row('twice at most', run(2));
row('as the wizard leads', run(12));
