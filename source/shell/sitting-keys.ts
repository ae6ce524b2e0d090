import type {Deed} from '../session/facts.ts';
import type {KeyAction, PracticeMove} from '../stages/stage.ts';
import {type EditCommand, editKeys} from '../terminal/edit-keys.ts';
import type {Binding} from '../terminal/keys.ts';
import {emptyEntry} from '../terminal/entry.ts';
import {isOnlyString, moveAhead, type Seen} from './seen.ts';
import {askedPitch} from './ears/asked-pitch.ts';
import type {Asking, Overlay, Sitting} from './state.ts';

/** What a key does to a sitting. */
export type Command =
	| EditCommand
	| {
			readonly kind:
				| 'enter'
				| 'practise'
				| 'undo'
				| 'redo'
				| 'note'
				| 'back'
				| 'list'
				| 'leave'
				| 'meant'
				| 'listen'
				| 'hear-now'
				| 'close'
				| 'save-sheet';
	  }
	| {readonly kind: 'string'; readonly step: 1 | -1}
	| {readonly kind: 'choice'; readonly step: 1 | -1}
	| {readonly kind: 'scroll'; readonly step: number}
	| {readonly kind: 'overlay'; readonly overlay: Overlay}
	| {readonly kind: 'deeds'; readonly deeds: readonly Deed[]; readonly ask?: string};

type Keys = Binding<Command>;

/**
 * Every key that works now and what it does, most useful first. Single
 * letters act on an empty line only, so a to h, which begin notes, digits and
 * signs are never commands.
 */
export function sittingKeys(sitting: Sitting, seen: Seen): readonly Keys[] {
	if (sitting.writing === 'note') return noteKeys;
	const listen = listenKeys(sitting, seen);
	if (sitting.asking?.by === 'ear') return [...heardKeys(sitting.asking), ...listen, ...typingKeys, leaveKey];
	if (sitting.asking?.by === 'answer') return [...meantKeys, ...typingKeys, ...listen, leaveKey];
	if (sitting.entry.text !== '' && !isOnlyString(sitting.entry))
		return [storeKey, meantKey, ...typingKeys, ...listen.slice(0, 1), leaveKey];
	const own = (seen.stage ? seen.stage.keys(seen.bench, seen.task) : seen.endKeys).flatMap(stageKey);
	const all = [
		...enterKeys(sitting, seen),
		...practiceKeys(sitting, seen),
		...listen,
		...own,
		...(sitting.overlay ? scrollKeys : []),
		...historyKeys(sitting),
		...stringKeys(sitting, seen),
		...everywhere,
		...editKeys,
	];
	return seen.task.freeText ? all.flatMap(withoutLetters) : all;
}

const helpKey: Keys = {
	strokes: ['?'],
	hint: 'help',
	help: 'shows every key and what the table means',
	command: {kind: 'overlay', overlay: 'help'},
	isPinned: true,
};
const leaveKey: Keys = {
	strokes: ['ctrl+c'],
	hint: 'leave',
	help: 'leaves, like q; what is on the entry line is dropped, nothing else',
	command: {kind: 'leave'},
	isPinned: true,
};
const storeKey: Keys = {strokes: ['enter'], hint: 'store', help: 'stores what is typed', command: {kind: 'enter'}};
const meantKey: Keys = {
	strokes: ['!'],
	help: 'stores what is typed although it is surprising: “I meant it”',
	command: {kind: 'meant'},
};

const typingKeys: readonly Keys[] = [
	{strokes: ['escape', 'ctrl+u'], hint: 'clear', help: 'clears the line', command: {kind: 'close'}},
	...editKeys,
];

const meantKeys: readonly Keys[] = [
	{strokes: ['enter', '!'], hint: 'I meant it', help: 'stores it as typed', command: {kind: 'meant'}},
];

/** What to do with what was heard and is in doubt. */
function heardKeys({choices}: Extract<Asking, {by: 'ear'}>): readonly Keys[] {
	const take: Keys = {
		strokes: ['enter', '!'],
		hint: 'take it',
		help: 'stores what was heard as it is shown',
		command: {kind: 'meant'},
	};
	const other: readonly Keys[] = [
		{
			strokes: ['down'],
			hint: 'other string',
			help: 'takes what was heard for another string',
			command: {kind: 'choice', step: 1},
		},
		{strokes: ['up'], help: 'goes back to the string shown before', command: {kind: 'choice', step: -1}},
	];
	const drop: Keys = {strokes: ['escape'], hint: 'drop it', help: 'drops what was heard', command: {kind: 'close'}};
	return [take, ...(choices.length > 1 ? other : []), drop];
}

/** Readings by ear: the same two keys wherever a pitch is asked for. */
function listenKeys({ear, entry}: Sitting, seen: Seen): readonly Keys[] {
	const isHinted = ear !== undefined || askedPitch(seen, entry) !== undefined;
	const now: Keys = {
		strokes: ['='],
		...(ear && {hint: 'now'}),
		help: 'by ear: takes what sounds now as it is, should a pluck have been missed or stand off its aim',
		command: {kind: 'hear-now'},
	};
	const listen: Keys = {
		strokes: ['tab', '*'],
		...(isHinted && {hint: ear ? 'stop listening' : 'listen'}),
		help: ear
			? 'stops listening; readings are typed'
			: 'listens: a plucked string is read by ear; typing goes on as ever',
		command: {kind: 'listen'},
	};
	return [listen, now];
}

const noteKeys: readonly Keys[] = [
	{strokes: ['enter'], hint: 'store the note', help: 'stores the note', command: {kind: 'enter'}},
	{strokes: ['escape'], hint: 'no note', help: 'leaves the note out', command: {kind: 'close'}},
	...editKeys,
	leaveKey,
];

const everywhere: readonly Keys[] = [
	{strokes: ['<'], hint: 'step back', help: 'opens the step before this one again', command: {kind: 'back'}},
	{
		strokes: ['o'],
		hint: 'outlook',
		help: 'shows the plan ahead and what moves what',
		command: {kind: 'overlay', overlay: 'outlook'},
	},
	{
		strokes: ['s'],
		hint: 'story',
		help: 'shows everything entered so far',
		command: {kind: 'overlay', overlay: 'story'},
	},
	{strokes: ['n'], hint: 'note', help: 'writes a note into the set-up', command: {kind: 'note'}},
	{strokes: ['l'], help: 'goes to the list of guitars and set-ups; nothing is lost', command: {kind: 'list'}},
	helpKey,
	{
		strokes: ['q', 'ctrl+c'],
		hint: 'leave',
		help: 'leaves; everything entered is stored',
		command: {kind: 'leave'},
		isPinned: true,
	},
	{strokes: ['escape'], help: 'closes what is open, clears the line', command: {kind: 'close'}},
];

const scrollKeys: readonly Keys[] = [
	{strokes: ['down', 'up'], hint: 'scroll', help: 'scrolls', command: {kind: 'scroll', step: 1}},
];

function enterKeys({entry}: Sitting, {task}: Seen): readonly Keys[] {
	if (entry.text !== '') return [storeKey];
	return task.enter
		? [
				{
					strokes: ['enter'],
					hint: task.enter.label,
					help: `on an empty line: ${task.enter.label}`,
					command: {kind: 'enter'},
				},
			]
		: [];
}

const practiceHints: Readonly<Record<PracticeMove['kind'], string>> = {
	pluck: 'pluck it',
	turn: 'turn it',
	'claw-until': 'turn them',
	'measure-plate': 'measure',
	'measure-spring-arm': 'measure',
	'measure-springs': 'measure',
	'measure-saddle': 'measure',
	deeds: 'do it',
};

function practiceKeys({entry}: Sitting, seen: Seen): readonly Keys[] {
	const move = moveAhead(seen, entry);
	if (!move) return [];
	const hint = practiceHints[move.kind];
	// Where Enter says the same, one of the two in the bar is enough.
	const isSame = move.kind === 'deeds' && seen.task.enter !== undefined;
	const help = 'practice guitar: the simulated hands do what is asked';
	// Behind a colon the space belongs to what is being typed: `5: -12`.
	const strokes = entry.text.endsWith(':') ? (['p'] as const) : ([' ', 'p'] as const);
	return [{strokes, ...(!isSame && {hint}), help, command: {kind: 'practise'}}];
}

function historyKeys({journal}: Sitting): readonly Keys[] {
	const undo: Keys = {
		strokes: ['u', 'ctrl+u'],
		hint: 'take back',
		help: 'takes the last entry back, again for the one before',
		command: {kind: 'undo'},
		isPinned: true,
	};
	const redo: Keys = {
		strokes: ['r', 'ctrl+r'],
		hint: 'put back',
		help: 'puts back what was taken back',
		command: {kind: 'redo'},
	};
	return journal.undone.length > 0 ? [undo, redo] : [undo];
}

function stringKeys({overlay}: Sitting, {task}: Seen): readonly Keys[] {
	if (overlay || task.tableRests) return [];
	return [
		{
			strokes: ['down'],
			hint: 'other string',
			help: 'chooses a thicker string; or type its number and a colon, like 5:',
			command: {kind: 'string', step: 1},
		},
		{strokes: ['up'], help: 'chooses a thinner string', command: {kind: 'string', step: -1}},
	];
}

function stageKey({key, label, does}: KeyAction): readonly Keys[] {
	const command = does.kind === 'deeds' ? does : shellCommands[does.name];
	return command ? [{strokes: [key], hint: label, help: label, command}] : [];
}

/** Names by which a stage may ask for what the wizard does itself. */
const shellCommands: Readonly<Record<string, Command>> = {
	'select-string': {kind: 'string', step: 1},
	outlook: {kind: 'overlay', overlay: 'outlook'},
	story: {kind: 'overlay', overlay: 'story'},
	sheet: {kind: 'overlay', overlay: 'sheet'},
	'save-sheet': {kind: 'save-sheet'},
	help: {kind: 'overlay', overlay: 'help'},
	back: {kind: 'back'},
	note: {kind: 'note'},
	list: {kind: 'list'},
	leave: {kind: 'leave'},
};

/** For the help: what works on an empty line, then what works while something is typed. */
export function helpKeys(sitting: Sitting, seen: Seen): readonly Keys[] {
	const {overlay: _, ...plain} = sitting;
	const empty = sittingKeys({...plain, entry: emptyEntry}, seen);
	const typing = [storeKey, meantKey, ...typingKeys.slice(0, 1)];
	return sitting.writing === 'note'
		? empty
		: [...empty.filter(({command}) => command.kind !== 'edit'), ...typing, ...editKeys];
}

/** Where words are asked for, every letter belongs to them. */
function withoutLetters(binding: Keys): readonly Keys[] {
	const [first, ...rest] = binding.strokes.filter(stroke => !/^\p{L}$/u.test(stroke));
	return first === undefined ? [] : [{...binding, strokes: [first, ...rest]}];
}
