/**
 * `npm run bench:balance [guitars] [seed] [--bounds | --forecasts | --led]`: plates up to ±4 mm off
 * at the tail and pitches off, on simulated guitars whose physics is richer
 * than what the tool believes in. One claw step and one guided pass, beside
 * the usual way on the same guitars; then forecasts of a change of set against
 * the simulated truth. The truth is looked at only to judge.
 */
import {quantile} from 'simple-statistics';
import {recalled} from '../../source/estimation/memory.ts';
import type {Estimate} from '../../source/numeric/estimate.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {withArmTold} from '../../source/planning/claw-sense.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {drawGuitar, ensembles, type Guitar, type StringSpec} from '../../source/practice/index.ts';
import {around} from '../../source/practice/draws.ts';
import {clawBalanced, pitchesBalanced, pitchesHeld} from '../../source/practice/poise.ts';
import {tailM} from '../../source/practice/read.ts';
import {truth} from '../../source/practice/truth.ts';
import {atPitch, type Change, foresee, type Knowledge, knowledges, levelTurns} from './balance-change.ts';
import {type Balanced, balanceByTool, type Known, type Outcome, type Way, type Wish} from './balance-run.ts';
import {balanceUsually, type UsualRun, usualSteps} from './balance-usual.ts';
import {firstBelief} from './first-belief.ts';
import {printSourceStamp} from './source-stamp.ts';

const numbers = process.argv.slice(2).filter(each => !each.startsWith('-'));
const count = Number(numbers[0] ?? 100);
const seed = Number(numbers[1] ?? 1);
/** Only the way that the wizard leads, on instruments never seen. */
const isLedOnly = process.argv.includes('--led');
const withBounds = process.argv.includes('--bounds');
const wish: Wish = {goal: usualGoal, wishTailM: 0, toleranceM: 0.3e-3};
const mostOffM = 4e-3;

const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
const percent = (part: number, whole: number) => `${((100 * part) / whole).toFixed(1)} %`;
const off = (index: number, purpose: number) => (2 * rngFrom(seed, index, purpose).uniform() - 1) * mostOffM;

function guitarOf(index: number): Guitar {
	const {spec} = ensembles[index % ensembles.length]!;
	return drawGuitar(rngFrom(seed, index, 1), spec, {start: 'drift', plateOffM: off(index, 2)});
}

/** Weeks later: somebody has turned the claw, every string stands somewhere else. */
function later(guitar: Guitar, index: number): Guitar {
	const rng = rngFrom(seed, index, 3);
	const angleRad = -Math.asin(off(index, 4) / guitar.spec.tailArmM);
	const {body} = clawBalanced(pitchesHeld({...guitar, claw: {trebleTurns: 0, bassTurns: 0}, angleRad}, []));
	const clawed = {...guitar, claw: {trebleTurns: 0, bassTurns: 0}, body};
	return pitchesBalanced(
		clawed,
		guitar.strings.map(() => -40 + 65 * rng.uniform()),
	);
}

/** The arm that truly acts on the way from where the plate stands at pitch to level, ln of metres. */
function actingArm(guitar: Guitar): Estimate {
	const {tailArmM, clawScrewPitchM} = guitar.spec;
	const [turns, offM] = [levelTurns(guitar), tailM(atPitch(guitar, 0))];
	return {mean: Math.log((tailArmM * clawScrewPitchM * turns) / offM), sd: 0.005};
}

/** A ruler laid from the knife edge to the spring hooks, metres. */
const rulerArmSdM = 1e-3;

type Start = 'unknown' | 'armed' | 'known' | 'known, armed' | 'told';

interface PlayedWay {
	readonly title: string;
	readonly aim: string;
	readonly start: Start;
	readonly how: Way;
	/** Which stream of chance. */
	readonly stream: number;
	readonly isBound?: boolean;
}

const unknownAim = '80 %, two 99 %';
const ledOnce = {moment: 'support', isTrimmed: false} as const;
const led = {moment: 'support', isTrimmed: true} as const;
const once = {moment: 'first', isTrimmed: false} as const;
const shown = {moment: 'first', isTrimmed: true} as const;
const ways = {
	'led once': {
		title: 'never seen; set on a level support, the claw turned by ear, once',
		aim: unknownAim,
		start: 'unknown',
		how: ledOnce,
		stream: 15,
	},
	led: {
		title: 'the same, the way the wizard leads',
		aim: unknownAim,
		start: 'unknown',
		how: led,
		stream: 15,
	},
	'known, led once': {
		title: 'known instrument, claw turned by somebody since; on a level support, by ear, once',
		aim: '95 %',
		start: 'known',
		how: ledOnce,
		stream: 16,
	},
	'known, led': {
		title: 'the same, the way the wizard leads',
		aim: '95 %',
		start: 'known',
		how: led,
		stream: 16,
	},
	once: {
		title: 'never seen, nothing measured but the tail; one claw turn by calculation',
		aim: unknownAim,
		start: 'unknown',
		how: once,
		stream: 5,
	},
	shown: {
		title: 'the same, trimmed on the way where a look shows it is wanted',
		aim: unknownAim,
		start: 'unknown',
		how: shown,
		stream: 6,
	},
	'armed, once': {
		title: 'never seen, edge to spring hooks measured; one claw turn',
		aim: unknownAim,
		start: 'armed',
		how: once,
		stream: 5,
	},
	'armed, shown': {
		title: 'the same, trimmed on the way',
		aim: unknownAim,
		start: 'armed',
		how: shown,
		stream: 14,
	},
	'known, once': {
		title: 'known instrument, claw turned by somebody since; one claw turn',
		aim: '95 %',
		start: 'known',
		how: once,
		stream: 7,
	},
	'known, shown': {
		title: 'the same, trimmed on the way',
		aim: '95 %',
		start: 'known',
		how: shown,
		stream: 12,
	},
	'known, armed, once': {
		title: 'known instrument, edge to spring hooks once measured; one claw turn',
		aim: '95 %',
		start: 'known, armed',
		how: once,
		stream: 7,
	},
	'known, armed, shown': {
		title: 'the same, trimmed on the way',
		aim: '95 %',
		start: 'known, armed',
		how: shown,
		stream: 12,
	},
	'armed, late': {
		title: 'never seen, hooks measured; one claw turn, always when all strings are roughly at pitch',
		aim: '',
		start: 'armed',
		how: {moment: 'late', isTrimmed: false},
		stream: 5,
		isBound: true,
	},
	told: {
		title: 'what bounds one claw turn: told how far this bridge answers its claw',
		aim: '',
		start: 'told',
		how: once,
		stream: 5,
		isBound: true,
	},
} as const satisfies Readonly<Record<string, PlayedWay>>;
type Name = keyof typeof ways;

const isGood = ({tailOffM, worstCents}: Outcome) =>
	Math.abs(tailOffM) <= wish.toleranceM && worstCents <= usualGoal.toleranceCents;

function report(name: string, aim: string, runs: readonly Balanced[]): void {
	const at = (step: number) => runs.map(({steps}) => steps[Math.min(step, steps.length - 1)]!);
	const share = (outcomes: readonly Outcome[], test: (outcome: Outcome) => boolean) =>
		percent(outcomes.filter(test).length, outcomes.length);
	const first = at(0);
	console.log(`${name} (${runs.length} guitars)`);
	console.log(
		`  after one step: plate within 0.3 mm and all within 2 cents ${share(first, isGood)}${aim}; ` +
			`plate alone ${share(first, each => Math.abs(each.tailOffM) <= wish.toleranceM)}, strings alone ${share(first, each => each.worstCents <= 2)}`,
	);
	console.log(
		`  of all ${share(first, each => isGood(each) && each.touches <= 1)} with no more than one turn of the claw, ${share(at(1), each => isGood(each) && each.touches <= 2)} with no more than two; after two steps ${share(at(1), isGood)}, three ${share(at(2), isGood)}; plate alone after two ${share(at(1), each => Math.abs(each.tailOffM) <= wish.toleranceM)}; ` +
			`second step asked for in ${percent(runs.filter(({steps}) => steps.length > 1).length, runs.length)}`,
	);
	const offs = first.map(({tailOffM}) => 1000 * Math.abs(tailOffM));
	const seconds = runs.flatMap(({steps}) => (steps[1] ? [Math.abs(steps[1].turns)] : []));
	console.log(
		`  tail off after one step: median ${quantile(offs, 0.5).toFixed(2)} mm, 95th ${quantile(offs, 0.95).toFixed(2)} mm` +
			(seconds.length > 0 ? `; second steps: median ${quantile(seconds, 0.5).toFixed(2)} turn` : ''),
	);
	console.log(
		`  adjustments: pegs ${mean(runs.map(({pegTurns}) => pegTurns)).toFixed(1)}, claw ${mean(runs.map(({clawTouches}) => clawTouches)).toFixed(2)}; ` +
			`plucks ${mean(runs.map(({plucks}) => plucks)).toFixed(0)}, plate measured ${mean(runs.map(({measures}) => measures)).toFixed(1)} times\n`,
	);
}

function reportUsual(name: string, runs: readonly UsualRun[]): void {
	const good = runs.filter(({guitar}) => {
		const {tailM, cents} = truth(guitar);
		return Math.abs(tailM) <= wish.toleranceM && cents.every(each => Math.abs(each ?? 1200) <= 2);
	});
	const pegs = runs.map(({pegTurns}) => pegTurns);
	console.log(
		`usual way, ${name}: pegs ${mean(pegs).toFixed(1)} (median ${quantile(pegs, 0.5).toFixed(0)}, 95th ${quantile(pegs, 0.95).toFixed(0)}), ` +
			`claw ${mean(runs.map(({clawTouches}) => clawTouches)).toFixed(2)}; ends good in ${percent(good.length, runs.length)}`,
	);
}

const midi = (notes: readonly number[]) => notes.map(note => 440 * 2 ** ((note - 69) / 12));
const tuned = (strings: readonly StringSpec[], notes: readonly number[]): readonly StringSpec[] =>
	midi(notes).map((targetHz, index) => ({...strings[index]!, targetHz}));
const standard = [64, 59, 55, 50, 45, 40];
const [nines, tens, , heavy, sevens, eights] = ensembles.map(({spec}) => spec);
const changes: readonly Change[] = [
	{name: 'nines to tens', spec: nines!, strings: tens!.strings},
	{name: 'tens to nines', spec: tens!, strings: nines!.strings},
	{name: 'tens to 11-56 in standard', spec: tens!, strings: tuned(heavy!.strings, standard)},
	{name: 'tens to 11-56, C G C F A D', spec: tens!, strings: heavy!.strings},
	{
		name: 'tens, down a whole tone',
		spec: tens!,
		strings: tuned(
			tens!.strings,
			standard.map(note => note - 2),
		),
	},
	{name: 'nines, drop D', spec: nines!, strings: tuned(nines!.strings, [64, 59, 55, 50, 45, 38])},
	{
		name: 'seven strings, down a half-step',
		spec: sevens!,
		strings: tuned(sevens!.strings, [63, 58, 54, 49, 44, 39, 34]),
	},
	{
		name: 'eight strings, up a half-step',
		spec: eights!,
		strings: tuned(eights!.strings, [65, 60, 56, 51, 46, 41, 36, 31]),
	},
];

function reportForecasts(knowledge: Knowledge): void {
	const all = Array.from({length: count}, (_, index) => {
		const foreseen = foresee(seed * 1000 + index, changes[index % changes.length]!, knowledge);
		const {forecast, pitchM} = foreseen;
		return {
			tension: forecast.totalN.mean / foreseen.totalN - 1,
			turns: forecast.claw.advanceM.mean / pitchM - foreseen.turns,
			turnsSd: forecast.claw.advanceM.sd / pitchM,
			needed: foreseen.turns,
			tail: 1000 * (forecast.claw.tailAtPitchM.mean - foreseen.tailAtPitchM),
		};
	});
	const within = (test: (each: (typeof all)[number]) => boolean) => percent(all.filter(test).length, all.length);
	const isFar = all.filter(({needed}) => Math.abs(needed) > 1);
	console.log(
		`forecast of a change, instrument ${knowledge} (${all.length} guitars): total tension within 5 % in ${within(({tension}) => Math.abs(tension) <= 0.05)} ` +
			`(95th ${(
				100 *
					quantile(
						all.map(({tension}) => Math.abs(tension)),
						0.95,
					)
			).toFixed(1)} %)`,
	);
	console.log(
		`  claw turns within half a turn in ${within(({turns}) => Math.abs(turns) <= 0.5)} (aim 90 %); needed ${mean(all.map(({needed}) => Math.abs(needed))).toFixed(2)} on average, up to ${Math.max(...all.map(({needed}) => Math.abs(needed))).toFixed(1)}; ` +
			`within the foretold 90 % interval ${within(({turns, turnsSd}) => Math.abs(turns) <= 1.645 * turnsSd)}`,
	);
	console.log(
		`  where more than one turn was needed (${isFar.length}): miss ${(100 * mean(isFar.map(({turns, needed}) => Math.abs(turns / needed)))).toFixed(0)} % of the turns on average\n`,
	);
}

function main(): void {
	printSourceStamp();
	if (process.argv.includes('--forecasts')) {
		for (const knowledge of knowledges) reportForecasts(knowledge);
		return;
	}

	console.log(
		`${count} guitars of six, seven and eight strings (seed ${seed}), tail up to ±4 mm off at pitch, strings -40 to +25 cents off,\n` +
			'tuner noise 0.5 cent, hand 0.7 cent, ruler 0.1 mm, claw screw 0.02 turn; claw turned in eighths.\n',
	);
	const runs = Object.fromEntries(Object.keys(ways).map((name): [string, Balanced[]] => [name, []])) as Record<
		Name,
		Balanced[]
	>;
	const usual = Object.keys(usualSteps).map((): UsualRun[] => []);
	for (let index = 0; index < count; index++) {
		const guitar = guitarOf(index);
		const belief = firstBelief(guitar, false, false);
		const unknown = {belief};
		const armed = {
			belief: withArmTold(belief, -guitar.body.hookYM + around(rngFrom(seed, index, 13), 0, rulerArmSdM)),
		};
		const play = (name: Name, on: Guitar, known: Known) => {
			const {how, stream} = ways[name];
			const played = balanceByTool(rngFrom(seed, index, stream), on, known, wish, how);
			runs[name].push(played);
			return played;
		};
		if (isLedOnly) {
			for (const name of ['led once', 'led'] as const) play(name, guitar, unknown);
			continue;
		}

		const taught = play('shown', guitar, unknown);
		const armedTaught = play('armed, shown', guitar, armed);
		const back = later(taught.guitar, index);
		const recall = ({lesson}: Balanced): Known => ({
			belief: recalled(firstBelief(back, false, false), lesson, {newStrings: false, newSprings: false}),
			arm: lesson.clawArm,
		});
		const starts: Readonly<Record<Start, readonly [Guitar, Known]>> = {
			unknown: [guitar, unknown],
			armed: [guitar, armed],
			known: [back, recall(taught)],
			'known, armed': [back, recall(armedTaught)],
			told: [guitar, {belief, arm: actingArm(guitar)}],
		};
		for (const [name, way] of Object.entries(ways) as [Name, PlayedWay][]) {
			if (name === 'shown' || name === 'armed, shown' || (way.isBound && !withBounds)) continue;
			play(name, ...starts[way.start]);
		}

		for (const [at, step] of Object.values(usualSteps).entries()) {
			usual[at]!.push(balanceUsually(rngFrom(seed, index, 8 + at), guitar, wish, step));
		}
	}

	for (const [name, {title, aim}] of Object.entries(ways) as [Name, PlayedWay][]) {
		if (runs[name].length > 0) report(title, aim ? ` (aim ${aim})` : '', runs[name]);
	}

	if (isLedOnly) return;
	for (const [at, name] of Object.keys(usualSteps).entries()) reportUsual(name, usual[at]!);
	const ours = mean(runs.led.map(({pegTurns, clawTouches}) => pegTurns + clawTouches));
	for (const [at, name] of Object.keys(usualSteps).entries()) {
		const theirs = mean(usual[at]!.map(({pegTurns, clawTouches}) => pegTurns + clawTouches));
		console.log(`  the tool makes ${percent(ours, theirs)} of the adjustments of the usual way, ${name}`);
	}

	console.log();
	for (const knowledge of knowledges) reportForecasts(knowledge);
}

main();
