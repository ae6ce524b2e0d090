import {rngFrom} from '../numeric/rng.ts';
import {
	centreFineTuners,
	changeSprings,
	clampNut,
	drawGuitar,
	fitString,
	leftForADay,
	liftClear,
	type Guitar,
	type GuitarSpec,
	measureSaddle,
	measureSpringArm,
	measureSprings,
	measureTail,
	moveArm,
	moveSaddle,
	openNut,
	placeSupport,
	pluck,
	removeString,
	removeSupport,
	type Start,
	slacken,
	stretchString,
	supportAt,
	turnClaw,
	turnClawUntil,
	turnTo,
} from '../practice/index.ts';
import type {Deed, Fact, Story} from './facts.ts';
import {clawUntil} from './claw-until.ts';
import {targetHzOf} from './instrument.ts';
import type {PracticeMove} from './practice-move.ts';
import type {InstrumentSheet, Job} from './sheet.ts';
import {indexOf} from './to-happenings.ts';

/**
 * The practice guitar behind a story: drawn from the sheet's seed, then
 * everything in the story done to it by simulated hands. Replayed from the
 * facts like all else, so undo takes the guitar back too.
 *
 * For tests and simulated hands only; advice must never look at it.
 *
 * @returns Undefined when the instrument is a real one.
 */
export function practiceGuitarOf(story: Story): Guitar | undefined {
	const sheet = sheetAtFirstTouch(story);
	if (sheet?.practiceSeed === undefined) return undefined;
	const remembered = memory.get(sheet) ?? new WeakMap<Fact, Guitar>();
	memory.set(sheet, remembered);
	let at = story.length - 1;
	while (at >= 0 && !remembered.has(story[at]!)) at--;
	let guitar = at >= 0 ? remembered.get(story[at]!)! : asItCameIn(sheet, sheet.practiceSeed);
	for (let index = at + 1; index < story.length; index++) {
		const fact = story[index]!;
		guitar = after(guitar, fact, {sheet, seed: sheet.practiceSeed, index, next: story[index + 1]});
		remembered.set(fact, guitar);
	}

	return guitar;
}

const memory = new WeakMap<InstrumentSheet, WeakMap<Fact, Guitar>>();

/**
 * The facts that come of a simulated pair of hands doing a move: what was
 * done, and what the simulated tuner or gauge then showed.
 *
 * @throws {RangeError} If the story's instrument is not a practice guitar.
 */
export function performPractice(story: Story, move: PracticeMove): readonly Deed[] {
	const sheet = sheetAtFirstTouch(story);
	const guitar = practiceGuitarOf(story);
	if (!guitar || sheet?.practiceSeed === undefined) {
		throw new RangeError('performPractice: expected story to be of a practice guitar, got a real one');
	}

	switch (move.kind) {
		case 'deeds':
			return move.deeds;
		case 'measure-plate': {
			const tailMm = round(measureTail(rngFrom(sheet.practiceSeed, story.length, 1), guitar) * 1000, 100);
			return [{type: 'PlateMeasured', tailMm, entered: `${tailMm}`}];
		}

		case 'measure-spring-arm': {
			const springArmMm = round(measureSpringArm(rngFrom(sheet.practiceSeed, story.length, 1), guitar) * 1000, 1);
			return [{type: 'SheetFilled', sheet: {...(sheetNow(story) ?? sheet), springArmMm}}];
		}

		case 'measure-springs': {
			const {nowM, closedM} = measureSprings(rngFrom(sheet.practiceSeed, story.length, 1), guitar);
			// Read to half a millimetre.
			const springLengthsMm = [round(nowM * 1000, 2), round(closedM * 1000, 2)] as const;
			return [{type: 'SheetFilled', sheet: {...(sheetNow(story) ?? sheet), springLengthsMm}}];
		}

		case 'measure-saddle': {
			const {string} = move;
			const rng = rngFrom(sheet.practiceSeed, story.length, 1);
			const positionMm = round(measureSaddle(rng, guitar, indexOf(string)) * 1000, 10);
			return [{type: 'SaddleMeasured', string, positionMm}];
		}

		case 'pluck':
			return read(guitar, sheet, move, story.length);
		case 'claw-until': {
			const {string, toCents, turns} = move;
			const deed = clawUntil({string, cents: toCents, turns});
			const at = {sheet, seed: sheet.practiceSeed, index: story.length, next: undefined};
			const turned = after(guitar, {...deed, at: 0, entry: 0}, at);
			return [deed, ...read(turned, sheet, {string, how: 'open'}, story.length + 1)];
		}

		case 'turn': {
			const {string, toCents, by} = move;
			const deed: Deed =
				by === 'peg'
					? {type: 'PegTurned', string, untilCents: toCents}
					: {type: 'FineTunerTurned', string, untilCents: toCents};
			const turned = after(
				guitar,
				{...deed, at: 0, entry: 0},
				{
					sheet,
					seed: sheet.practiceSeed,
					index: story.length,
					next: undefined,
				},
			);
			if (!turned.strings[indexOf(string)]!.on) return [deed, {type: 'StringRemoved', string}];
			return [deed, ...read(turned, sheet, {string, how: 'open'}, story.length + 1)];
		}
	}
}

function sheetNow(story: Story): InstrumentSheet | undefined {
	const filled = story.findLast(({type}) => type === 'SheetFilled');
	return filled?.type === 'SheetFilled' ? filled.sheet : undefined;
}

function read(
	guitar: Guitar,
	sheet: InstrumentSheet,
	{string, how, fret}: Omit<Extract<PracticeMove, {kind: 'pluck'}>, 'kind'>,
	index: number,
): readonly Deed[] {
	const sounding = {how, ...(fret === undefined ? {} : {fret})};
	const {cents} = pluck(rngFrom(sheet.practiceSeed ?? 0, index), guitar, indexOf(string), sounding);
	if (cents === undefined) return [{type: 'StringSlackened', string}];
	const said = round(cents + spokenCents(guitar, sheet, string), 10);
	return [{type: 'PitchRead', string, how, cents: said, entered: `${said}`, ...(fret === undefined ? {} : {fret})}];
}

interface Moment {
	readonly sheet: InstrumentSheet;
	readonly seed: number;
	/** Place of the fact in its story: names its stream of chance. */
	readonly index: number;
	readonly next: Fact | undefined;
}

/** The guitar after one fact. Facts that no hand does leave it alone. */
function after(guitar: Guitar, fact: Fact, {sheet, seed, index, next}: Moment): Guitar {
	const rng = rngFrom(seed, index);
	switch (fact.type) {
		case 'NutOpened':
			return openNut(guitar);
		case 'NutClamped':
			return clampNut(rng, guitar);
		case 'FineTunersCentred':
			return centreFineTuners(guitar);
		case 'SupportPlaced':
			return fact.tailMm === undefined ? placeSupport(guitar) : supportAt(rng, guitar, fact.tailMm / 1000);
		case 'SupportRemoved':
			return removeSupport(guitar);
		case 'ClawTurned': {
			if (!fact.until) return turnClaw(rng, guitar, fact).guitar;
			const {string, cents, from} = fact.until;
			const toCents = cents - spokenCents(guitar, sheet, string);
			return from
				? liftClear(rng, guitar, indexOf(string), toCents, from).guitar
				: turnClawUntil(rng, guitar, indexOf(string), toCents).guitar;
		}

		case 'SpringsChanged':
			return changeSprings(rng, guitar, fact.springs);
		case 'StringRemoved':
			return removeString(guitar, indexOf(fact.string));
		case 'StringFitted':
			return fitString(rng, withSpecOf(guitar, sheet, indexOf(fact.string)), indexOf(fact.string));
		case 'StringSlackened':
			return slacken(guitar, indexOf(fact.string));
		case 'StringStretched':
			return stretchString(guitar, indexOf(fact.string));
		case 'PegTurned':
		case 'FineTunerTurned': {
			// Without an aim, the hand stopped where the next reading says.
			const until =
				fact.untilCents ?? (next?.type === 'PitchRead' && next.string === fact.string ? next.cents : undefined);
			if (until === undefined) return guitar;
			const toCents = until - spokenCents(guitar, sheet, fact.string);
			return turnTo(rng, guitar, indexOf(fact.string), toCents, fact.type === 'PegTurned' ? 'peg' : 'fine-tuner')
				.guitar;
		}

		case 'PitchRead': {
			const sounding = {how: fact.how, ...(fact.fret === undefined ? {} : {fret: fact.fret})};
			return pluck(rng, guitar, indexOf(fact.string), sounding).guitar;
		}

		case 'SaddleMoved':
			return moveSaddle(rng, guitar, indexOf(fact.string), fact.travelMm / 1000).guitar;
		case 'DayPassed':
			return leftForADay(guitar);
		case 'ArmMoved':
			return moveArm(guitar, fact.motion, 2);
		case 'SheetFilled':
		case 'StagePassed':
		case 'StageReopened':
		case 'ItemTicked':
		case 'WayChosen':
		case 'NoteWritten':
		case 'PlateMeasured':
		case 'StringSlipped':
		case 'SaddleMeasured':
			return guitar;
		default: {
			const unhandled: never = fact;
			throw new RangeError(`practiceGuitarOf: expected a known type of fact, got ${JSON.stringify(unhandled)}`);
		}
	}
}

/** How a guitar comes in for each kind of job. */
const startFor: Readonly<Record<Job, Start>> = {
	whole: 'drift',
	restring: 'drift',
	change: 'level-and-in-tune',
	intonation: 'intonation-off',
};

/** One practice guitar in ten was put away with its strings let down. */
function startOf(job: Job, seed: number): Start {
	return job === 'whole' && seed % 10 === 9 ? 'whole-tone-flat' : startFor[job];
}

function asItCameIn(sheet: InstrumentSheet, seed: number): Guitar {
	const spec = specOf({...sheet, strings: sheet.before ?? sheet.strings});
	return drawGuitar(rngFrom(seed), spec, {
		start: startOf(sheet.job, seed),
		nut: 'locked',
		...(sheet.job === 'whole' || sheet.job === 'intonation' ? {saddleOffM: 2.5e-3} : {}),
	});
}

function specOf(sheet: InstrumentSheet): GuitarSpec {
	return {
		strings: sheet.strings.map(string => ({
			targetHz: targetHzOf(string, sheet.referenceAHz),
			gaugeM: string.gaugeThou * 25.4e-6,
			wound: string.wound,
			...(string.coreThou === undefined ? {} : {coreM: string.coreThou * 25.4e-6}),
		})),
		scaleLengthM: sheet.scaleLengthMm / 1000,
		springs: sheet.springs,
		clawScrewPitchM: sheet.clawScrewPitchMm / 1000,
		tailArmM: sheet.tailArmMm / 1000,
		actionM: sheet.actionMm / 1000,
		nutHeightM: sheet.nutHeightMm / 1000,
		wishTailM: sheet.plateWishMm / 1000,
	};
}

/** A new string is of the new set; the others stay of whatever they were. */
function withSpecOf(guitar: Guitar, sheet: InstrumentSheet, index: number): Guitar {
	const fresh = specOf(sheet).strings[index];
	if (!fresh) return guitar;
	const strings = guitar.spec.strings.map((old, at) => (at === index ? fresh : old));
	return {...guitar, spec: {...guitar.spec, strings}};
}

/** What to add to the simulation's cents (of the string on it) to get cents of the sheet's target. */
function spokenCents(guitar: Guitar, sheet: InstrumentSheet, string: Parameters<typeof indexOf>[0]): number {
	const row = sheet.strings[indexOf(string)];
	const on = guitar.spec.strings[indexOf(string)];
	return row && on ? 1200 * Math.log2(on.targetHz / targetHzOf(row, sheet.referenceAHz)) : 0;
}

/** The sheet in force when the guitar was first touched: later edits of the sheet do not change the guitar. */
function sheetAtFirstTouch(story: Story): InstrumentSheet | undefined {
	let sheet: InstrumentSheet | undefined;
	for (const fact of story) {
		if (fact.type === 'SheetFilled') sheet = fact.sheet;
		else if (sheet && isTouch(fact)) return sheet;
	}

	return sheet;
}

function isTouch({type}: Fact): boolean {
	return !['StagePassed', 'StageReopened', 'ItemTicked', 'WayChosen', 'NoteWritten'].includes(type);
}

function round(value: number, perUnit: number): number {
	return Math.round(value * perUnit) / perUnit;
}
