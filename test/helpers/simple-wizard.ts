import type {Bench, StringRow} from '../../source/session/bench.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Story} from '../../source/session/facts.ts';
import {stringsOf} from '../../source/music/string-number.ts';
import {openOpening} from '../../source/shell/opening.ts';
import type {Ports} from '../../source/shell/ports.ts';
import type {Sitting, Wizard} from '../../source/shell/state.ts';
import {press, startSetup} from '../../source/shell/wizard.ts';
import type {Answer, Stage, Task} from '../../source/stages/stage.ts';
import {strokesOfText} from '../../source/terminal/strokes.ts';
import {type MemoryStore, memoryStore} from './memory-store.ts';

/**
 * A wizard with two plain stages and a bench that believes every reading, so
 * that what is tested is the wizard and not what it knows about guitars.
 */
export function simplePorts(options: {readonly strings?: 6 | 7 | 8; readonly stages?: readonly Stage[]} = {}): Ports & {
	readonly store: MemoryStore;
} {
	const store = memoryStore();
	const sheet = defaultSheet({strings: options.strings ?? 6});
	return {
		stages: options.stages ?? [names, readings],
		store,
		benchOf: simpleBench,
		outlookOf: () => ({
			order: [{string: 2, aimCents: {mean: 12, sd: 1}}],
			movesPerTenCents: () => stringsOf(sheet.strings.length).map(() => sheet.strings.map(() => ({mean: -2, sd: 0.2}))),
			errorsAfterStep: [40, -20, 0.5].map(cents => sheet.strings.map((_, index) => (index === 0 ? undefined : cents))),
		}),
		lessonOf: story => ({strings: sheet.strings.length, mean: [story.length], covariance: [[1]]}),
		decide: deeds =>
			deeds.some(deed => deed.type === 'PitchRead' && Math.abs(deed.cents) > 3000)
				? {ok: false, said: 'The bench does not allow that.'}
				: {ok: true},
		practise: (_story, move) =>
			move.kind === 'pluck' ? [{type: 'PitchRead', string: move.string, how: move.how, cents: -7, entered: '-7'}] : [],
		firstSheet: practiceSeed =>
			practiceSeed === undefined ? sheet : {...sheet, name: 'Practice guitar', practiceSeed},
		writeFile: (name, text) => ({ok: true, said: `Written: ${name}, ${text.length} characters`}),
		now: () => 5000,
		seed: () => 7,
	};
}

/** Asks for words, then for all strings. */
const names: Stage = {
	id: 'names',
	title: 'Names',
	isNeeded: () => true,
	isDone: ({sheet}) => sheet.name !== 'Guitar',
	task: ({sheet}): Task => ({
		headline: 'What is the guitar called?',
		why: 'Its record is kept under this name.',
		how: ['Any words will do.'],
		prompt: 'name',
		example: 'Red one',
		freeText: true,
		tableRests: true,
		cautions: ['String ends are sharp.'],
		progress: sheet.name === 'Guitar' ? 0 : 1,
	}),
	answer: (text, _task, {sheet}): Answer =>
		text.trim().length > 30
			? {kind: 'refused', said: `Read “${text.slice(0, 10)}”: a name has 30 letters at most, for example Red one.`}
			: {kind: 'deeds', deeds: [{type: 'SheetFilled', sheet: {...sheet, name: text.trim()}}]},
	keys: () => [],
};

const readings: Stage = {
	id: 'readings',
	title: 'Readings',
	isNeeded: () => true,
	isDone: ({strings}) => strings.every(({lastReading}) => lastReading),
	task(bench): Task {
		const next = bench.strings.find(({lastReading}) => !lastReading) ?? bench.strings[0]!;
		return {
			headline: `Turn string ${next.string} (${next.note}) up until your tuner shows +12 cents.`,
			why: 'The strings still to come will bring it to pitch.',
			how: ['Come up to it from below.'],
			prompt: 'tuner shows',
			example: '-12',
			string: next.string,
			act: {kind: 'turn', string: next.string, toCents: 12},
			practice: {kind: 'pluck', string: next.string, how: 'open'},
			progress: bench.strings.filter(({lastReading}) => lastReading).length / bench.strings.length,
		};
	},
	answer(text, task, _bench, extra): Answer {
		const [, named, number] = /^\s*(?:(\d):)?\s*([+-]?\d+(?:\.\d+)?)\s*$/.exec(text) ?? [];
		if (number === undefined)
			return {kind: 'refused', said: `Read “${text}”: not a reading. Type cents, for example -12.`};
		const string = (named ? Number(named) : task.string) as 1;
		const cents = Number(number);
		const deeds = [{type: 'PitchRead', string, how: 'open', cents, entered: text}] as const;
		if (Math.abs(cents) > 300 && !extra?.meant)
			return {kind: 'question', said: `Read ${cents} cents, more than two semitones out.`, deedsIfMeant: deeds};
		return {kind: 'deeds', deeds};
	},
	keys: () => [
		{key: 't', label: 'tick', does: {kind: 'deeds', deeds: [{type: 'ItemTicked', item: 'readings: t', done: true}]}},
		{
			key: '>',
			label: 'go on anyway',
			does: {kind: 'deeds', deeds: [{type: 'StagePassed', stage: 'readings'}], ask: 'Not every string is read. Go on?'},
		},
	],
};

export function simpleBench(story: Story): Bench {
	const state = stateOf(story);
	const sheet = state.sheet!;
	const strings = stringsOf(sheet.strings.length).map((string): StringRow => {
		const reading = state.strings[string].readings.open?.last;
		return {
			string,
			note: sheet.strings[string - 1]!.note,
			targetHz: 110,
			gaugeThou: sheet.strings[string - 1]!.gaugeThou,
			wound: sheet.strings[string - 1]!.wound,
			...(reading && {
				lastReading: {cents: reading.cents, how: 'open', fact: reading},
				now: {mean: reading.cents, sd: 0.5},
			}),
			touchedSince: 0,
			aim: {mean: 12.3, sd: 1},
			tensionN: 80.5,
			targetTensionN: 81,
			strengthShare: 0.4,
			saddleMm: 1.24,
			intonationCents: {mean: -2.5, sd: 0.5},
			state: reading ? 'free' : 'needs a look',
		};
	});
	return {
		story,
		sheet,
		nut: state.nut,
		blocked: state.blocked,
		clawByEar: () => undefined,
		clawLift: () => undefined,
		springs: 3,
		toleranceCents: sheet.openToleranceCents,
		strings,
		plate: {
			tailMm: {mean: 0.4, sd: 0.2},
			tailAtPitchMm: {mean: 0.1, sd: 0.1},
			clawTurns: {mean: 0.5, sd: 0.1},
			clawTurnsMade: 0,
			springForceN: 150,
			bySide: {trebleTurns: 0.5, bassTurns: 0.5, twist: 'alike', twistM: 0},
			springs: {kind: 'turns-will-do', outlook: {springs: 3, forceN: 150, turns: 0.5}},
			verdict: 'measure-again',
			isTurnWorth: true,
			isArmWanted: false,
			isLookDue: false,
			isSecondLookDue: false,
		},
		changeCompared: () => undefined,
		without: () => ({
			clawTurns: {mean: -1, sd: 0.2},
			tailAtPitchMm: {mean: -2, sd: 0.3},
			replaced: {clawTurns: {mean: 0.5, sd: 0.1}, tailAtPitchMm: {mean: 0.1, sd: 0.1}},
		}),
		tuning: {kind: 'done', worst: {string: 1, error: {mean: 0, sd: 1}}, probability: 1},
		ticked: state.ticked,
		ways: state.ways,
		passedStages: state.passedStages,
		...(state.reopenedStage !== undefined && {reopenedStage: state.reopenedStage}),
		lastAdjustment: state.lastTouch,
		adjustments: state.adjustments,
		diagnosis: () => undefined,
		locking: () => ({strings: [], retainerSuspects: []}),
		forecast: act => ({
			moves:
				act.kind === 'turn'
					? strings
							.filter(({string}) => string !== act.string)
							.map(({string}) => ({string, cents: {mean: -3.1, sd: 0.4}}))
					: [],
			tipMm: {mean: 0.2, sd: 0.05},
			comesBack: false,
			matters: act.kind === 'turn',
		}),
		recheck: () => undefined,
		expectReading: () => undefined,
	};
}

/** A sitting of a new set-up. */
export function simpleSitting(ports: Ports): Sitting {
	return startSetup(ports, undefined);
}

export function opening(ports: Ports) {
	return openOpening(ports);
}

/** Presses keys one after the other: names of keys as single strings, or text to be typed. */
export function presses(wizard: Wizard, ports: Ports, ...keys: readonly string[]): Wizard {
	const strokes = keys.flatMap(key => (isNamed(key) ? [key] : strokesOfText(key)));
	return strokes.reduce((now, stroke) => press(now, stroke, ports), wizard);
}

function isNamed(key: string): boolean {
	return (
		key.startsWith('ctrl+') ||
		/^(up|down|left|right|home|end|page(up|down)|enter|escape|tab|backspace|delete)$/.test(key)
	);
}

/** The same, for a wizard that must still be at a set-up afterwards. */
export function pressesInSitting(wizard: Wizard, ports: Ports, ...keys: readonly string[]): Sitting {
	const after = presses(wizard, ports, ...keys);
	if (after.screen !== 'sitting')
		throw new RangeError(`pressesInSitting: expected to stay at the set-up, got ${after.screen}`);
	return after;
}
