/**
 * `npm run bench:tuning [guitars per start] [start | all] [--bounds]`: how
 * many turns of a peg it takes to bring a floating bridge to pitch, on
 * simulated guitars whose physics is richer than what the tool believes in.
 * Side by side on the same guitars: the tool, the same instrument's second
 * set-up, the usual go-round, and a plan that knows the simulation itself.
 * `--bounds` prints instead what the tool needs with one difficulty taken away at a time.
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
import {type Told, toldTruth} from './told.ts';
import {guidedPass, type Pass, supportedPass} from './tool-pass.ts';
import {printSourceStamp} from './source-stamp.ts';

interface Kind {
	readonly name: string;
	readonly start: Start;
	readonly isNew: boolean;
	readonly aim: readonly [median: number, most: number];
}

const kinds: readonly Kind[] = [
	{name: 'drift, claw off', start: 'drift', isNew: false, aim: [2, 5]},
	{name: 'all a whole tone flat', start: 'whole-tone-flat', isNew: false, aim: [2, 5]},
	{name: 'new gauge, old springs', start: 'new-gauge', isNew: true, aim: [4, 8]},
	{name: 'restring from slack', start: 'slack', isNew: true, aim: [4, 8]},
];

/** One way of tuning one guitar, judged by the hidden truth. */
interface Outcome {
	/** Turns less the number of strings. */
	readonly over: number;
	readonly worstCents: number;
	readonly finished: boolean;
}

interface Result {
	readonly tool: Outcome;
	readonly pass: Pass;
	/** On a level support first, where the wizard offers that. */
	readonly onSupport: Outcome | undefined;
	readonly again: Outcome;
	readonly goRound: Outcome;
	readonly known: Outcome;
}

function outcomeOf(run: {readonly guitar: Guitar; readonly adjustments: number; readonly finished: boolean}): Outcome {
	const {guitar, adjustments, finished} = run;
	const worstCents = Math.max(...guitar.strings.map((_, index) => Math.abs(openCents(guitar, index) ?? 1200)));
	return {over: adjustments - guitar.strings.length, worstCents, finished};
}

/** Weeks later: every string somewhere else. */
function drifted(rng: Rng, guitar: Guitar): Guitar {
	return guitar.strings.reduce(
		(now, _, index) => turnedExactly(now, index, -40 + 65 * rng.uniform(), 'peg').guitar,
		guitar,
	);
}

const nothingNew = {newStrings: false, newSprings: false};

function drawn({start}: Kind, seed: number, options: Partial<GuitarOptions>): Guitar {
	return drawGuitar(rngFrom(seed, 1), ensembles[seed % ensembles.length]!.spec, {start, ...options});
}

function firstPass(kind: Kind, seed: number, guitar: Guitar, told: Told = {}): Pass {
	const belief = toldTruth(firstBelief(guitar, kind.isNew, kind.start === 'slack'), guitar, told);
	return guidedPass(rngFrom(seed, 2), guitar, belief, usualGoal);
}

function supportPass(kind: Kind, seed: number, guitar: Guitar): Pass {
	const belief = firstBelief(guitar, kind.isNew, kind.start === 'slack');
	return supportedPass(rngFrom(seed, 8), guitar, belief, usualGoal);
}

function resultOf(kind: Kind, seed: number): Result {
	const guitar = drawn(kind, seed, {});
	const pass = firstPass(kind, seed, guitar);
	const later = drifted(rngFrom(seed, 5), pass.guitar);
	const memory = recalled(firstBelief(later, false, false), learnedFrom(pass.belief), nothingNew);
	return {
		tool: outcomeOf(pass),
		pass,
		onSupport: kind.start === 'whole-tone-flat' ? outcomeOf(supportPass(kind, seed, guitar)) : undefined,
		again: outcomeOf(guidedPass(rngFrom(seed, 6), later, memory, usualGoal)),
		goRound: outcomeOf(goRound(rngFrom(seed, 3), guitar, usualGoal)),
		known: outcomeOf(known(rngFrom(seed, 4), guitar, usualGoal)),
	};
}

const overs = (outcomes: readonly Outcome[]) => outcomes.map(({over}) => over);
const signed = (value: number): string => `strings ${value < 0 ? '-' : '+'} ${Math.abs(Math.round(value))}`.padEnd(14);
const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const within = (outcomes: readonly Outcome[]): string =>
	percent(
		outcomes.filter(({finished, worstCents}) => finished && worstCents <= usualGoal.toleranceCents).length /
			outcomes.length,
	);

function row(name: string, outcomes: readonly Outcome[], aim = ''): void {
	const [median, most] = [0.5, 0.95].map(share => signed(quantile(overs(outcomes), share)));
	console.log(`  ${name.padEnd(42)}${median}${most}${within(outcomes).padEnd(10)}${aim}`);
}

function report(kind: Kind, count: number, seeds: readonly number[]): void {
	const results = seeds.map(seed => resultOf(kind, seed));
	console.log(`${kind.name} (${count} guitars)`);
	console.log(`  ${'turns of a peg'.padEnd(42)}${'median'.padEnd(14)}${'95th'.padEnd(14)}${'all ±2'.padEnd(10)}aim`);
	row(
		'the tool, instrument never seen',
		results.map(({tool}) => tool),
		`+ ${kind.aim[0]}, + ${kind.aim[1]}`,
	);
	const onSupport = results.flatMap(result => (result.onSupport ? [result.onSupport] : []));
	if (onSupport.length > 0)
		row('the tool, on a level support first', onSupport, `+ ${kind.aim[0]}, + ${kind.aim[1]} (claw turns counted)`);
	row(
		'same instrument, drifted, second set-up',
		results.map(({again}) => again),
		'+ 1, + 3',
	);
	row(
		'going round, low to high',
		results.map(round => round.goRound),
	);
	row(
		'plan that knows the simulation',
		results.map(oracle => oracle.known),
	);
	const passes = results.map(({pass}) => pass);
	const shifts = passes.flatMap(pass => pass.shifts);
	const covered = shifts.filter(shift => Math.abs(shift.true - shift.predicted) <= 1.645 * shift.sd).length;
	const worse = results.filter(result => result.tool.over > result.goRound.over);
	const reallyWorse = worse.filter(result => result.goRound.worstCents <= usualGoal.toleranceCents);
	const worst = results.map(({tool}) => tool.worstCents);
	console.log(
		`  plucks ${quantile(
			passes.map(({plucks}) => plucks),
			0.5,
		)}; worst string median ${quantile(worst, 0.5).toFixed(2)}, 95th ${quantile(worst, 0.95).toFixed(2)}, most ${Math.max(...worst).toFixed(2)} cents; more turns than going round in ${percent(worse.length / count)} (${percent(reallyWorse.length / count)} if going round must end within ±2 too)`,
	);
	console.log(
		`  90 % intervals of ${shifts.length} forecast moves cover ${percent(covered / shifts.length)}; plain strings up to ${percent(Math.max(...passes.map(({strain}) => strain)))} of nominal minimum strength`,
	);
	console.log();
}

/** What limits where: the tool on the first of the same guitars with difficulties taken away. */
function boundRows(kind: Kind, seeds: readonly number[]): void {
	const run = (options: Partial<GuitarOptions>, told: Told = {}) =>
		seeds.map(seed => outcomeOf(firstPass(kind, seed, drawn(kind, seed, options), told)));
	console.log(`${kind.name}: the tool on ${seeds.length} guitars, with less to contend with`);
	const steady = {handErrorCents: 0.05, tunerNoiseCents: 0.05};
	row('as it is', run({}));
	row('weights told: mass, and arm at the bridge', run({}, {weights: true}));
	row('stretch of the strings told', run({}, {stretch: true}));
	row('springs told', run({}, {springs: true}));
	row('all three told', run({}, {weights: true, stretch: true, springs: true}));
	row('strings that do not stretch in', run({stretchScale: 0}));
	row('no friction at knife edge and nut', run({frictionScale: 0}));
	row('steady hand and tuner (0.05 cent)', run(steady));
	row(
		'all of these',
		run({...steady, frictionScale: 0, stretchScale: 0}, {weights: true, stretch: true, springs: true}),
	);
	row(
		'the same guitar again, as learned',
		seeds.map(seed => {
			const guitar = drawn(kind, seed, {});
			const first = firstPass(kind, seed, guitar);
			const prior = firstBelief(guitar, kind.isNew, kind.start === 'slack');
			const memory = recalled(prior, learnedFrom(first.belief), nothingNew);
			return outcomeOf(guidedPass(rngFrom(seed, 7), guitar, memory, usualGoal));
		}),
	);
}

function main(): void {
	printSourceStamp();
	const [count = '200', only = 'all'] = process.argv.slice(2).filter(word => !word.startsWith('--'));
	const withBounds = process.argv.includes('--bounds');
	const first = Number(process.argv.find(word => word.startsWith('--seed='))?.slice(7) ?? 10_000);
	for (const [at, kind] of kinds.entries()) {
		if (only !== 'all' && kind.start !== only) continue;
		const seeds = Array.from({length: Number(count)}, (_, index) => first * (at + 1) + index);
		if (withBounds) boundRows(kind, seeds);
		else report(kind, Number(count), seeds);
	}
}

main();
