/**
 * `npm run bench:lock [guitars] [first seed]`: simulated guitars tuned with
 * the nut open, clamped, and put right with the fine tuners alone, each string
 * shifted by the clamps by up to 8 cents. Then the same guitar on a later day,
 * its strings somewhere else: once as if its clamps were not known, once with
 * every string set off beforehand by what the clamps did the first time.
 *
 * Numbers were looked at on seeds 2001 to 2060 while the plan was made; these start at 3001, drawn for the last table only.
 */
import {quantile} from 'simple-statistics';
import {learnedFrom, recalled} from '../../source/estimation/memory.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {aimBeforeClamp, expectedShift} from '../../source/planning/clamp-plan.ts';
import {clampNut, type Guitar, openNut} from '../../source/practice/index.ts';
import {openCents} from '../../source/practice/sound.ts';
import {turnedExactly} from '../../source/practice/turn.ts';
import {lockedGoal, putRight, type SetUp, setUp} from './diagnosis-run.ts';
import {firstBelief} from './first-belief.ts';
import {guidedPass} from './tool-pass.ts';
import {printSourceStamp} from './source-stamp.ts';

printSourceStamp();
const count = Number(process.argv[2] ?? 60);
const first = Number(process.argv[3] ?? 3001);

/** Targets moved by so many cents: what is aimed at before the clamps go on. */
function aimedOff(guitar: Guitar, offCents: readonly number[]): Guitar {
	const strings = guitar.spec.strings.map((string, index) => ({
		...string,
		targetHz: string.targetHz * 2 ** (offCents[index]! / 1200),
	}));
	return {...guitar, spec: {...guitar.spec, strings}};
}

/** Opened on a later day, strings −20 to +10 cents, tuned to targets off by so much, clamped and put right. */
function later(seed: number, {guitar, belief}: SetUp, offCents: readonly number[]): SetUp {
	const rng = rngFrom(seed, 30);
	const learned = learnedFrom(belief);
	const drifted = guitar.strings.reduce(
		(now, _, index) => turnedExactly(now, index, -20 + 30 * rng.uniform(), 'peg').guitar,
		openNut(guitar),
	);
	const since = {newStrings: false, newSprings: false};
	const aimed = aimedOff(drifted, offCents);
	const goal = {...lockedGoal, toleranceCents: 2};
	const open = guidedPass(rngFrom(seed, 31), aimed, recalled(firstBelief(aimed, false, false), learned, since), goal);
	const back = {...open.guitar, spec: guitar.spec};
	const clamped = clampNut(rngFrom(seed, 32), back);
	const shifts = guitar.strings.map((_, index) => (openCents(clamped, index) ?? 0) - (openCents(back, index) ?? 0));
	// Read anew against the true targets; of the pass with the nut open only what lasts is taken over.
	const again = recalled(firstBelief(clamped, false, false), learnedFrom(open.belief), since);
	return putRight(rngFrom(seed, 33), clamped, again, {isNew: false, shifts});
}

const runs = Array.from({length: count}, (_, k) => {
	const seed = first + k;
	const before = setUp(seed, Math.floor(seed / 6) % 2 === 1);
	const off = before.found.map(shift => aimBeforeClamp(shift && expectedShift([shift])));
	const nothing = off.map(() => 0);
	return {before, blind: later(seed, before, nothing), known: later(seed, before, off)};
});

const of = (values: readonly number[], share: number): number => quantile([...values], share);
const over = (value: number): string => `strings ${value < 0 ? '-' : '+'} ${Math.abs(Math.round(value))}`;

function report(name: string, all: readonly SetUp[]): void {
	const extra = all.map(({locked, guitar}) => locked.adjustments - guitar.strings.length);
	const worst = all.map(({worstAfter}) => worstAfter);
	const inside = worst.filter(each => each <= 1.5).length;
	const start = all.map(({worstBefore}) => worstBefore);
	console.log(`${name}`);
	console.log(
		`  worst string right after clamping: median ${of(start, 0.5).toFixed(1)}, 95th ${of(start, 0.95).toFixed(1)} cents`,
	);
	console.log(
		`  fine tuner turns: median ${over(of(extra, 0.5))} (${of(
			all.map(({locked}) => locked.adjustments),
			0.5,
		)}), 95th ${over(of(extra, 0.95))}; aim: median at most strings + 2`,
	);
	console.log(
		`  worst string after them, truth: median ${of(worst, 0.5).toFixed(2)}, 95th ${of(worst, 0.95).toFixed(2)} cents; all within ±1.5 on ${inside} of ${all.length}; within ±2 on ${worst.filter(each => each <= 2).length}`,
	);
}

const shifts = runs.flatMap(({before}) => before.shifts);
console.log(`${count} guitars, seeds ${first} to ${first + count - 1}; reading noise 0.5, hand 0.7 cents`);
console.log(
	`shift of a string by the clamps, bridge included: ${Math.min(...shifts).toFixed(1)} to ${Math.max(...shifts).toFixed(1)} cents\n`,
);
report(
	'first time',
	runs.map(({before}) => before),
);
report(
	'later day, shift not met beforehand',
	runs.map(({blind}) => blind),
);
report(
	'later day, strings set off beforehand by the shift learned',
	runs.map(({known}) => known),
);
