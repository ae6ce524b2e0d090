/**
 * `npm run bench:intonation [guitars] [seed]`: saddles off by up to ±3 mm on a
 * simulated ensemble, put right by following the tool and by guess-and-repeat
 * on the same guitars. The truth is looked at only to judge.
 */
import {rngFrom} from '../../source/numeric/rng.ts';
import {drawGuitar} from '../../source/practice/draw-guitar.ts';
import {nines, tens} from '../../source/practice/ensembles.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {truth} from '../../source/practice/truth.ts';
import {guessAndRepeat, guessHabits, mainHabit, whyMainHabit} from './saddle-guess.ts';
import {adjustmentsOf, followTool, type SaddleRun} from './saddle-tool.ts';

const count = Number(process.argv[2] ?? 100);
const seed = Number(process.argv[3] ?? 1);
/** Saddle set with this standard deviation: the harder reading of "to ±0.15 mm". */
const saddleSdM = Number(process.argv[4] ?? 0.15) / 1000;
const goals = {
	saddle: {wishCents: 0, toleranceCents: 2},
	tuning: {toleranceCents: 2, readingCents: 0.5, handCents: 0.7},
};

function guitarOf(index: number): Guitar {
	const rng = rngFrom(seed, index, 1);
	const {spec} = index % 2 ? tens : nines;
	const actionM = 1.2e-3 + 1e-3 * rng.uniform();
	return drawGuitar(
		rng,
		{...spec, actionM},
		{start: 'intonation-off', saddleOffM: 3e-3, saddleSdM, tunerNoiseCents: 0.5},
	);
}

interface Tally {
	readonly name: string;
	readonly adjustments: number[];
	readonly turns: number[];
	readonly movesPerString: number[];
	readonly secondMoves: number[];
	readonly plucks: number[];
	readonly periods: number[];
	readonly worstFretted: number[];
	readonly worstOpen: number[];
	good: number;
	within: number;
	ms: number;
}

const tallyOf = (name: string): Tally => ({
	name,
	adjustments: [],
	turns: [],
	movesPerString: [],
	secondMoves: [],
	plucks: [],
	periods: [],
	worstFretted: [],
	worstOpen: [],
	good: 0,
	within: 0,
	ms: 0,
});

type Run = Pick<SaddleRun, 'guitar' | 'moves' | 'slackenings' | 'turns' | 'plucks'> & {readonly periods?: number};

function note(tally: Tally, run: Run, startedAt: number): void {
	const {fretted12ErrorCents, cents} = truth(run.guitar);
	const worst = Math.max(...fretted12ErrorCents.map(error => Math.abs((error ?? 99) - goals.saddle.wishCents)));
	tally.adjustments.push(adjustmentsOf(run));
	tally.turns.push(run.turns);
	for (const moves of run.moves) tally.movesPerString.push(moves);
	tally.secondMoves.push(run.moves.filter(moves => moves > 1).length);
	tally.plucks.push(run.plucks);
	tally.periods.push(run.periods ?? run.slackenings);
	tally.worstFretted.push(worst);
	tally.worstOpen.push(Math.max(...cents.map(error => Math.abs(error ?? 99))));
	if (worst <= 2) tally.good++;
	for (const error of fretted12ErrorCents) if (Math.abs(error ?? 99) <= 2) tally.within++;
	tally.ms += performance.now() - startedAt;
}

const ways = (['blocked', 'all-at-once', 'string-by-string'] as const).map(way => ({
	way,
	tally: tallyOf(
		{
			blocked: 'tool, all at once, supported',
			'all-at-once': 'tool, all at once, floating',
			'string-by-string': 'tool, string by string',
		}[way],
	),
	misses: [] as number[],
	foretellings: [] as number[],
	outOfTravel: 0,
	unfinished: 0,
	checks: 0,
}));
const habits = Object.entries(guessHabits).map(([name, habit]) => ({
	name,
	habit,
	tally: tallyOf(`guess and repeat, ${name}`),
}));

for (let index = 0; index < count; index++) {
	const guitar = guitarOf(index);
	for (const [purpose, followed] of ways.entries()) {
		const startedAt = performance.now();
		const run = followTool(rngFrom(seed, index, 2 + purpose), guitar, goals, followed.way);
		note(followed.tally, run, startedAt);
		followed.outOfTravel += run.outOfTravel.length;
		followed.checks += run.checks;
		followed.unfinished += run.unfinished;
		const after = truth(run.guitar).fretted12ErrorCents;
		for (const [string, belief] of run.believed.entries()) {
			followed.misses.push((after[string]! - belief.errorCents.mean) / belief.errorCents.sd);
			const foretold = run.foretold[string];
			if (foretold && run.moves[string] === 1) {
				followed.foretellings.push((after[string]! - foretold.mean) / foretold.sd);
			}
		}
	}
	for (const [purpose, {habit, tally}] of habits.entries()) {
		const startedAt = performance.now();
		note(tally, guessAndRepeat(rngFrom(seed, index, 10 + purpose), guitar, goals, habit), startedAt);
	}
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const quantile = (values: readonly number[], share: number) =>
	[...values].sort((one, other) => one - other)[Math.min(values.length - 1, Math.floor(values.length * share))]!;
const cell = (value: number, digits = 1) => value.toFixed(digits).padStart(9);

console.log(
	`${count} guitars of six strings (seed ${seed}), saddles off by up to ±3 mm, action 1.2-2.2 mm, reading noise 0.5 cent, ` +
		`saddle set with a spread of ${(saddleSdM * 1000).toFixed(2)} mm.\n` +
		'An adjustment is one slackening, one saddle set, or one turn of a peg to a pitch. Fretted 12th minus harmonic is judged by the hidden truth.\n',
);
console.log(
	`${''.padEnd(42)}${['moves', '2nd move', 'adjust-', 'median', '95 %', 'turns', 'slack', 'plucks', 'guitars', 'strings', 'worst', 'open'].map(word => word.padStart(9)).join('')}`,
);
console.log(
	`${''.padEnd(42)}${['/string', '/guitar', 'ments', '', '', '', 'periods', '', 'all ±2', '±2', '95 %', '95 %'].map(word => word.padStart(9)).join('')}`,
);
for (const {tally} of [...ways, ...habits]) {
	console.log(
		tally.name.padEnd(42) +
			cell(mean(tally.movesPerString), 2) +
			cell(mean(tally.secondMoves), 2) +
			cell(mean(tally.adjustments)) +
			cell(quantile(tally.adjustments, 0.5), 0) +
			cell(quantile(tally.adjustments, 0.95), 0) +
			cell(mean(tally.turns)) +
			cell(mean(tally.periods)) +
			cell(mean(tally.plucks), 0) +
			`${((100 * tally.good) / count).toFixed(1)} %`.padStart(9) +
			`${((100 * tally.within) / tally.movesPerString.length).toFixed(1)} %`.padStart(9) +
			cell(quantile(tally.worstFretted, 0.95), 2) +
			cell(quantile(tally.worstOpen, 0.95), 2),
	);
}

console.log();
const share = (values: readonly number[], limit: number) =>
	`${((100 * values.filter(value => Math.abs(value) <= limit).length) / values.length).toFixed(1)} %`;
console.log('adjustments of the tool as a share of guess and repeat on the same guitars (total over total):');
for (const {name, tally} of habits) {
	const shares = ways.map(
		({way, tally: own}) => `${way} ${(mean(own.adjustments) / mean(tally.adjustments)).toFixed(3)}`,
	);
	console.log(
		`  ${name.padEnd(24)} ${shares.join(', ')}${name === mainHabit ? '   <- the practice; aim: at most 1/3' : ''}`,
	);
}
console.log(`\n${whyMainHabit}`);
for (const {way, tally, misses, foretellings, outOfTravel, checks, unfinished} of ways) {
	console.log(
		`\n${way}: final error within the believed 90 %: ${share(misses, 1.645)} of ${misses.length}, mean miss ${mean(misses).toFixed(2)} spreads; ` +
			`first move within the foretold 90 %: ${share(foretellings, 1.645)} of ${foretellings.length}, mean ${mean(foretellings).toFixed(2)} spreads;\n` +
			`  out of travel: ${outOfTravel} strings; checks asked for: ${checks}; tuning passes that gave up: ${unfinished}; ${(tally.ms / count).toFixed(0)} ms a guitar`,
	);
}
