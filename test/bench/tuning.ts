/**
 * `npm run bench:tuning [guitars per start]`: how many turns of a peg it takes
 * to bring a floating bridge to pitch, on simulated guitars whose physics is
 * richer than what the tool believes in. Side by side on the same guitars:
 * the tool, the usual go-round, and a plan that knows the simulation itself.
 */
import {quantile} from 'simple-statistics';
import {learnedFrom, recalled} from '../../source/estimation/memory.ts';
import {type Rng, rngFrom} from '../../source/numeric/rng.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {drawGuitar, ensembles, type Guitar, type GuitarOptions, type Start} from '../../source/practice/index.ts';
import {openCents} from '../../source/practice/sound.ts';
import {turnedExactly} from '../../source/practice/turn.ts';
import {firstBelief} from './first-belief.ts';
import {goRound, known} from './other-ways.ts';
import {guidedPass, type Pass} from './tool-pass.ts';

const kinds: readonly {name: string; start: Start; isNew: boolean; target: readonly [number, number]}[] = [
	{name: 'drift, claw off', start: 'drift', isNew: false, target: [2, 5]},
	{name: 'all a whole tone flat', start: 'whole-tone-flat', isNew: false, target: [2, 5]},
	{name: 'new gauge, old springs', start: 'new-gauge', isNew: true, target: [4, 8]},
	{name: 'restring from slack', start: 'slack', isNew: true, target: [4, 8]},
];

interface Result {
	/** Turns less the number of strings. */
	readonly over: number;
	readonly goRoundOver: number;
	readonly knownOver: number;
	readonly plucks: number;
	readonly worstCents: number;
	readonly finished: boolean;
	readonly goRoundWorstCents: number;
	readonly again?: {readonly over: number; readonly worstCents: number; readonly finished: boolean};
	readonly pass: Pass;
}

function worstOf(guitar: Guitar): number {
	return Math.max(...guitar.strings.map((_, index) => Math.abs(openCents(guitar, index) ?? 1200)));
}

/** Weeks later: every string somewhere else. */
function drifted(rng: Rng, guitar: Guitar): Guitar {
	return guitar.strings.reduce(
		(now, _, index) => turnedExactly(now, index, -40 + 65 * rng.uniform(), 'peg').guitar,
		guitar,
	);
}

export function runOne(kind: (typeof kinds)[number], seed: number, options: Partial<GuitarOptions> = {}): Result {
	const {spec} = ensembles[seed % ensembles.length]!;
	const strings = spec.strings.length;
	const guitar = drawGuitar(rngFrom(seed, 1), spec, {start: kind.start, ...options});
	const prior = firstBelief(guitar, kind.isNew, kind.start === 'slack');
	const pass = guidedPass(rngFrom(seed, 2), guitar, prior, usualGoal);
	const round = goRound(rngFrom(seed, 3), guitar, usualGoal);
	const oracle = known(rngFrom(seed, 4), guitar, usualGoal);
	const later = drifted(rngFrom(seed, 5), pass.guitar);
	const memory = recalled(firstBelief(later, false, false), learnedFrom(pass.belief), {
		newStrings: false,
		newSprings: false,
	});
	const again = guidedPass(rngFrom(seed, 6), later, memory, usualGoal);
	return {
		over: pass.adjustments - strings,
		goRoundOver: round.adjustments - strings,
		knownOver: oracle.adjustments - strings,
		plucks: pass.plucks,
		worstCents: worstOf(pass.guitar),
		finished: pass.finished,
		goRoundWorstCents: worstOf(round.guitar),
		again: {over: again.adjustments - strings, worstCents: worstOf(again.guitar), finished: again.finished},
		pass,
	};
}

const of = (values: readonly number[], share: number): number => quantile([...values], share);
const over = (value: number): string => `strings ${value < 0 ? '-' : '+'} ${Math.abs(Math.round(value))}`.padEnd(12);
const pair = (values: readonly number[]): string => `${over(of(values, 0.5))} ${over(of(values, 0.95))}`;
const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

function report(name: string, target: readonly [number, number], results: readonly Result[]): void {
	const shifts = results.flatMap(result => result.pass.shifts);
	const covered = shifts.filter(shift => Math.abs(shift.true - shift.predicted) <= 1.645 * shift.sd).length;
	const worse = results.filter(result => result.over > result.goRoundOver).length;
	const inside = results.filter(result => result.finished && result.worstCents <= usualGoal.toleranceCents).length;
	console.log(`${name} (${results.length} guitars)                 median       95th percentile`);
	console.log(
		`  the tool, instrument never seen        ${pair(results.map(result => result.over))} (aim: strings + ${target[0]}, + ${target[1]})`,
	);
	console.log(
		`  same instrument, second set-up         ${pair(results.map(result => result.again!.over))} (aim: strings + 1, + 3)`,
	);
	console.log(`  going round                            ${pair(results.map(result => result.goRoundOver))}`);
	console.log(`  plan that knows the simulation         ${pair(results.map(result => result.knownOver))}`);
	console.log(
		`  plucks ${of(
			results.map(result => result.plucks),
			0.5,
		)} (median); all within ±2 cents of the truth: tool ${percent(inside / results.length)}, second ${percent(results.filter(result => result.again!.worstCents <= 2).length / results.length)}, going round ${percent(results.filter(result => result.goRoundWorstCents <= 2).length / results.length)}`,
	);
	console.log(
		`  worst string: median ${of(
			results.map(result => result.worstCents),
			0.5,
		).toFixed(2)}, 95th ${of(
			results.map(result => result.worstCents),
			0.95,
		).toFixed(
			2,
		)}, most ${Math.max(...results.map(result => result.worstCents)).toFixed(2)} cents; more turns than going round in ${percent(worse / results.length)}`,
	);
	console.log(
		`  90 % intervals of ${shifts.length} forecast moves cover ${percent(covered / shifts.length)}; plain strings up to ${percent(Math.max(...results.map(result => result.pass.strain)))} of minimum strength\n`,
	);
}

function main(): void {
	const count = Number(process.argv[2] ?? 200);
	const only = process.argv[3];
	const bounds = process.argv.includes('--bounds');
	for (const [at, kind] of kinds.entries()) {
		if (only && only !== '--bounds' && kind.start !== only) continue;
		const seeds = Array.from({length: count}, (_, index) => 10_000 * (at + 1) + index);
		report(
			kind.name,
			kind.target,
			seeds.map(seed => runOne(kind, seed)),
		);
		if (!bounds) continue;
		report(
			`${kind.name}, no friction`,
			kind.target,
			seeds.map(seed => runOne(kind, seed, {frictionScale: 0})),
		);
		report(
			`${kind.name}, no friction, steady hand and tuner, strings stretched in`,
			kind.target,
			seeds.map(seed =>
				runOne(kind, seed, {frictionScale: 0, handErrorCents: 0.05, tunerNoiseCents: 0.05, stretchScale: 0}),
			),
		);
	}
}

main();
