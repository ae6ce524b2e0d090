/**
 * `npm run bench:intonation [guitars] [seed]`: saddles off by up to ±3 mm on a
 * simulated ensemble, put right by following the tool and by guess-and-repeat
 * on the same guitars, and once more by somebody who knows all of them
 * through and through: what no advice can better. The truth is looked at only
 * to judge, and by that last one.
 * Further rows of the tool take one thing away that makes its work harder.
 */
import {rngFrom} from '../../source/numeric/rng.ts';
import {drawGuitar} from '../../source/practice/draw-guitar.ts';
import {nines, tens} from '../../source/practice/ensembles.ts';
import type {SaddleWay} from '../../source/planning/saddle-ways.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {evenPress} from '../../source/practice/fretting.ts';
import {pressedAndReleased} from '../../source/practice/sound.ts';
import {truth} from '../../source/practice/truth.ts';
import {printSourceStamp} from './source-stamp.ts';
import {endsWellShare, guessAndRepeat, guessHabits, guessStretches} from './saddle-guess.ts';
import {knownSaddles} from './saddle-known.ts';
import {adjustmentsOf, followTool, type SaddleRun, stretches} from './saddle-tool.ts';

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

/**
 * Fretted 12th minus harmonic of strings that were pressed there and let go
 * once before, as when they were read and as in playing: the first press after
 * a string or the plate has moved draws wire over the open nut.
 */
function asPlayed(guitar: Guitar): readonly (number | undefined)[] {
	const pressed = guitar.strings.reduce((all, _, string) => pressedAndReleased(all, string, 12, evenPress), guitar);
	return truth(pressed).fretted12ErrorCents;
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
	/** Turns by where they were made, summed. */
	readonly spent: Record<string, number>;
	slackenings: number;
	good: number;
	/** The same at the very first press. */
	goodAtOnce: number;
	inTune: number;
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
	spent: {},
	slackenings: 0,
	good: 0,
	goodAtOnce: 0,
	inTune: 0,
	within: 0,
	ms: 0,
});

type Run = Pick<SaddleRun, 'guitar' | 'moves' | 'slackenings' | 'turns' | 'plucks'> & {
	readonly periods?: number;
	readonly spent: Readonly<Record<string, number>>;
};

function note(tally: Tally, run: Run, startedAt: number): void {
	const {cents} = truth(run.guitar);
	const fretted12ErrorCents = asPlayed(run.guitar);
	const worst = Math.max(...fretted12ErrorCents.map(error => Math.abs((error ?? 99) - goals.saddle.wishCents)));
	tally.adjustments.push(adjustmentsOf(run));
	tally.turns.push(run.turns);
	for (const moves of run.moves) tally.movesPerString.push(moves);
	tally.secondMoves.push(run.moves.filter(moves => moves > 1).length);
	for (const [where, turns] of Object.entries(run.spent)) tally.spent[where] = (tally.spent[where] ?? 0) + turns;
	tally.slackenings += run.slackenings;
	tally.plucks.push(run.plucks);
	tally.periods.push(run.periods ?? run.slackenings);
	tally.worstFretted.push(worst);
	tally.worstOpen.push(Math.max(...cents.map(error => Math.abs(error ?? 99))));
	if (worst <= 2) tally.good++;
	if (truth(run.guitar).fretted12ErrorCents.every(error => Math.abs((error ?? 99) - goals.saddle.wishCents) <= 2)) {
		tally.goodAtOnce++;
	}
	if (cents.every(error => Math.abs(error ?? 99) <= goals.tuning.toleranceCents)) tally.inTune++;
	for (const error of fretted12ErrorCents) if (Math.abs(error ?? 99) <= 2) tally.within++;
	tally.ms += performance.now() - startedAt;
}

/** As it is, or with hands and tuner changed. */
const followed = (name: string, way: SaddleWay, hands: Partial<Guitar['hands']> = {}) => ({
	name,
	way,
	hands,
	tally: tallyOf(`tool, ${name}`),
	misses: [] as number[],
	foretellings: [] as number[],
	outOfTravel: 0,
	unfinished: 0,
	checks: 0,
});
const ways = [
	followed('all at once, supported', 'blocked'),
	followed('all at once, floating', 'all-at-once'),
	followed('string by string', 'string-by-string'),
];
const exactCents = 0.01;
const others = [
	followed('supported, hand exact', 'blocked', {handErrorCents: exactCents}),
	followed('supported, tuner exact', 'blocked', {tunerNoiseCents: exactCents}),
	followed('supported, all exact', 'blocked', {
		handErrorCents: exactCents,
		tunerNoiseCents: exactCents,
		saddleSdM: 1e-6,
	}),
];
const habits = Object.entries(guessHabits).map(([name, habit]) => ({
	name,
	habit,
	tally: tallyOf(`guess and repeat, ${name}`),
}));

const knowing = tallyOf('everything known, supported');

for (let index = 0; index < count; index++) {
	const guitar = guitarOf(index);
	note(knowing, knownSaddles(rngFrom(seed, index, 30), guitar, goals), performance.now());
	for (const [purpose, each] of [...ways, ...others].entries()) {
		const startedAt = performance.now();
		const start = {...guitar, hands: {...guitar.hands, ...each.hands}};
		const run = followTool(rngFrom(seed, index, 40 + purpose), start, goals, each.way);
		note(each.tally, run, startedAt);
		each.outOfTravel += run.outOfTravel.length;
		each.checks += run.checks;
		each.unfinished += run.unfinished;
		const after = asPlayed(run.guitar);
		for (const [string, belief] of run.believed.entries()) {
			each.misses.push((after[string]! - belief.errorCents.mean) / belief.errorCents.sd);
			const foretold = run.foretold[string];
			if (foretold && run.moves[string] === 1) {
				each.foretellings.push((after[string]! - foretold.mean) / foretold.sd);
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

printSourceStamp();
console.log(
	`${count} guitars of six strings (seed ${seed}), saddles off by up to ±3 mm, action 1.2-2.2 mm, reading noise 0.5 cent, ` +
		`saddle set with a spread of ${(saddleSdM * 1000).toFixed(2)} mm.\n` +
		'An adjustment is one slackening, one saddle set, or one turn to a pitch, of a peg or of both claw screws. Fretted 12th minus harmonic is judged by the hidden truth.\n',
);
console.log(
	`${''.padEnd(42)}${['moves', '2nd move', 'adjust-', 'median', '95 %', 'turns', 'slack', 'plucks', 'guitars', 'at first', 'strings', 'worst', 'open', 'guitars'].map(word => word.padStart(9)).join('')}`,
);
console.log(
	`${''.padEnd(42)}${['/string', '/guitar', 'ments', '', '', '', 'periods', '', 'all ±2', 'press', '±2', '95 %', '95 %', 'open ±2'].map(word => word.padStart(9)).join('')}`,
);
for (const tally of [knowing, ...[...ways, ...others].map(way => way.tally), ...habits.map(habit => habit.tally)]) {
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
			`${((100 * tally.goodAtOnce) / count).toFixed(1)} %`.padStart(9) +
			`${((100 * tally.within) / tally.movesPerString.length).toFixed(1)} %`.padStart(9) +
			cell(quantile(tally.worstFretted, 0.95), 2) +
			cell(quantile(tally.worstOpen, 0.95), 2) +
			`${((100 * tally.inTune) / count).toFixed(1)} %`.padStart(9),
	);
}

console.log('\nwhere each adjustment goes, on average a guitar:');
const heads = ['slackened', 'saddles', 'second', 'turns:', '', '', '', ''];
const ofTool = ['', 'set', 'moves', 'bring-up', 'others on', 'before', 'after', 'claw'];
const ofTool2 = ['', '', '(in both)', '', 'support', 'proof', 'proof', 'by ear'];
const row = (name: string, cells: readonly string[]) =>
	console.log(name.padEnd(42) + cells.map(each => each.padStart(11)).join(''));
const mostly = ({slackenings, movesPerString, secondMoves}: Tally): readonly string[] => {
	const sets = movesPerString.reduce((sum, moves) => sum + moves, 0);
	return [slackenings / count, sets / count, mean(secondMoves)].map(value => value.toFixed(2));
};
const spentOf = ({spent}: Tally, wheres: readonly string[]) =>
	wheres.map(where => ((spent[where] ?? 0) / count).toFixed(2));
for (const cells of [heads, ofTool, ofTool2]) row('', cells);
for (const tally of [knowing, ...[...ways, ...others].map(way => way.tally)])
	row(tally.name, [...mostly(tally), ...spentOf(tally, stretches)]);
row('', ['', '', '', 'string', 'between', 'at the end', '']);
row('', ['', '', '', 'at hand', 'readings', 'of a round', '']);
for (const {tally} of habits) row(tally.name, [...mostly(tally), ...spentOf(tally, guessStretches)]);

console.log();
const share = (values: readonly number[], limit: number) =>
	`${((100 * values.filter(value => Math.abs(value) <= limit).length) / values.length).toFixed(1)} %`;
console.log('adjustments as a share of guess and repeat on the same guitars (total over total; aim: at most 1/3):');
for (const {name, tally} of habits) {
	const shares = [{name: 'known', tally: knowing}, ...ways].map(
		({name: who, tally: own}) => `${who} ${(mean(own.adjustments) / mean(tally.adjustments)).toFixed(3)}`,
	);
	const endsWell = tally.good / count >= endsWellShare;
	console.log(`  ${name.padEnd(24)} ${shares.join(', ')}${endsWell ? '   <- ends as well' : ''}`);
}
console.log(`
Counted alike on both sides: a slackening, a saddle set, a turn to a pitch; the claw's two screws, turned in turn until one string is right,\ncount as one turn (as two, the tool's mean were higher by its column). Both end with open strings within ±2 on the tuner.
A practice is a measure only if it ends as well: at least ${100 * endsWellShare} % of guitars with every saddle within ±2 in truth. Those content with ±2 as read
(0.7 cent of noise in a difference of two plucks) do not. "guitar": all strings are brought back before the next reading, as by those
who judge the fretted note against the tuner; "string alone": only the string at hand, its harmonic read anew, all others left until the
end of the round. "rule" computes .37 mm per cent, which is no guess but the tool's own first step; it is printed as the hardest measure.
The support put in and taken out is no adjustment and no practice has it: twice ${mean(ways[0]!.tally.periods).toFixed(1)} handlings a guitar.
"everything known": saddles truly out are moved by the true distance, aims are played through on a copy; hand, tuner, the setting
of a saddle and what windings give are left. What its share is above 1/3 of, no advice can bring below.
"exact": hand or tuner with errors of 0.01 cent; "all": and saddles set to 0.001 mm: what those cost.
Judged as played: each string pressed and let go once before, as when it was read; "at first press": without that.`);
for (const {name, tally, misses, foretellings, outOfTravel, checks, unfinished} of [...ways, ...others]) {
	console.log(
		`\n${name}: final error within the believed 90 %: ${share(misses, 1.645)} of ${misses.length}, mean miss ${mean(misses).toFixed(2)} spreads; ` +
			`first move within the foretold 90 %: ${share(foretellings, 1.645)} of ${foretellings.length}, mean ${mean(foretellings).toFixed(2)} spreads;\n` +
			`  out of travel: ${outOfTravel} strings; checks asked for: ${checks}; tuning passes that gave up: ${unfinished}; ${(tally.ms / count).toFixed(0)} ms a guitar`,
	);
}
