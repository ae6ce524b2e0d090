import type {Learned} from '../estimation/memory.ts';
import type {StringNumber} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import type {Act, Bench, StringRow} from '../session/bench.ts';
import type {Story} from '../session/facts.ts';
import type {KeyAction, PracticeMove, Stage, Task} from '../stages/stage.ts';
import {halfWidth} from '../units/spread.ts';
import type {Entry} from '../terminal/entry.ts';
import {endKeys, endTask, nightsSince} from './end-task.ts';
import {oddReadings, withOddMarked} from './odd-readings.ts';
import {stageOf} from './place.ts';
import type {Ports} from './ports.ts';
import type {Sitting} from './state.ts';

/** What the person sees of a story: derived, never kept. */
export interface Seen {
	readonly bench: Bench;
	/** Undefined when every step is passed. */
	readonly stage?: Stage;
	readonly task: Task;
	/** One-key actions after the last step. */
	readonly endKeys: readonly KeyAction[];
	/** True where the practice guitar's hands can be asked to act. */
	readonly isPractice: boolean;
}

interface Known {
	readonly ports: Ports;
	readonly learned: Learned | undefined;
	/** What was seen yesterday is not what is to be seen today. */
	readonly nights: number;
	readonly seen: Seen;
}

const known = new WeakMap<Story, Known>();

export function seenBy({journal: {story}, learned}: Pick<Sitting, 'journal' | 'learned'>, ports: Ports): Seen {
	const now = ports.now();
	const nights = nightsSince(story, now);
	const before = known.get(story);
	if (before && before.ports === ports && before.learned === learned && before.nights === nights) return before.seen;
	const believed = ports.benchOf(story, learned);
	const stage = stageOf(believed, ports.stages);
	const odd = oddReadings(believed, stage);
	const bench = withOddMarked(believed, odd);
	const task = stage ? taskOf(stage, bench) : endTask(bench, now);
	const seen: Seen = {
		bench,
		...(stage && {stage}),
		task: odd ? {...task, cautions: [odd.said, ...(task.cautions ?? [])]} : task,
		endKeys: stage ? [] : endKeys(bench, now),
		isPractice: bench.sheet.practiceSeed !== undefined,
	};
	known.set(story, {ports, learned, nights, seen});
	return seen;
}

/** A stage that is done and asks nothing more goes on with Enter. */
function taskOf(stage: Stage, bench: Bench): Task {
	const task = stage.task(bench);
	if (task.enter || !stage.isDone(bench)) return task;
	const deeds = [{type: 'StagePassed', stage: stage.id}] as const;
	return {...task, enter: {label: 'go on', deeds}};
}

/** The string that the entry line names, as in `5: -12`, or that has been chosen with `5:`. */
export function stringNamed({text}: Entry, {strings}: Bench): StringNumber | undefined {
	const number = /^\s*(\d)\s*:/.exec(text)?.[1];
	return strings.find(({string}) => String(string) === number)?.string;
}

/** True when the line holds a chosen string and nothing else. */
export function isOnlyString({text}: Entry): boolean {
	return /^\s*\d\s*:\s*$/.test(text);
}

/** An aim is worth showing once it is known to within this many cents, nine times out of ten. */
const sureCents = 50;

/** Where to leave a string if it is turned next, when that can be said. */
export function aimOf({aim}: StringRow): Estimate | undefined {
	return aim && halfWidth(aim) < sureCents ? aim : undefined;
}

/** The act whose forecast is shown: the task's own, or turning the string that was chosen instead. */
export function actAhead({bench, task}: Seen, entry: Entry): Act | undefined {
	const chosen = stringNamed(entry, bench);
	if (chosen === undefined || chosen === task.string) return task.act;
	const aim = bench.strings.find(({string}) => string === chosen)?.aim;
	return aim && {kind: 'turn', string: chosen, toCents: aim.mean};
}

/** What the simulated hands would do now: the task's move, on the chosen string if there is one. */
export function moveAhead({bench, task, isPractice}: Seen, entry: Entry): PracticeMove | undefined {
	const move = task.practice;
	const chosen = stringNamed(entry, bench);
	if (!isPractice || move === undefined || chosen === undefined || chosen === task.string)
		return isPractice ? move : undefined;
	if (move.kind === 'pluck') return {...move, string: chosen};
	const aim = bench.strings.find(({string}) => string === chosen)?.aim;
	return move.kind === 'turn' && aim
		? {...move, string: chosen, toCents: aim.mean}
		: {kind: 'pluck', string: chosen, how: 'open'};
}
