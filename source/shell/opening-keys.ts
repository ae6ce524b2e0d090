import {type EditCommand, editKeys} from '../terminal/edit-keys.ts';
import type {Binding} from '../terminal/keys.ts';
import {openingItems} from './opening-items.ts';
import type {Opening} from './state.ts';

/** What a key does to the first screen. */
export type OpeningCommand =
	| EditCommand
	| {readonly kind: 'choose' | 'again' | 'rename' | 'delete' | 'leave' | 'help' | 'close' | 'sure' | 'look'}
	| {readonly kind: 'move'; readonly step: number}
	| {readonly kind: 'pick'; readonly at: number};

type Keys = Binding<OpeningCommand>;

/** Every key of the first screen. */
export function openingKeys(opening: Opening): readonly Keys[] {
	if (opening.naming) return nameKeys;
	if (opening.asking) return opening.asking.kind === 'held' ? heldKeys : sureKeys;
	const items = openingItems(opening);
	const isKept = 'summary' in (items[opening.at] ?? {});
	return [
		{strokes: ['enter'], hint: 'choose', help: 'opens what is marked', command: {kind: 'choose'}},
		{strokes: ['down'], hint: 'next', help: 'marks the next line', command: {kind: 'move', step: 1}},
		{strokes: ['up'], help: 'marks the line before', command: {kind: 'move', step: -1}},
		{strokes: ['pagedown'], help: 'marks ten lines on', command: {kind: 'move', step: 10}},
		{strokes: ['pageup'], help: 'marks ten lines back', command: {kind: 'move', step: -10}},
		...items.slice(0, 9).map(
			(_, at): Keys => ({
				strokes: [String(at + 1)],
				help: `opens line ${at + 1} at once`,
				command: {kind: 'pick', at},
			}),
		),
		...(isKept ? keptKeys : []),
		{strokes: ['?'], hint: 'help', help: 'shows every key', command: {kind: 'help'}, isPinned: true},
		{strokes: ['q', 'ctrl+c'], hint: 'leave', help: 'leaves', command: {kind: 'leave'}, isPinned: true},
		{strokes: ['escape'], help: 'closes the help', command: {kind: 'close'}},
	];
}

const keptKeys: readonly Keys[] = [
	{
		strokes: ['s'],
		hint: 'new set-up of it',
		help: 'starts another set-up of the marked guitar',
		command: {kind: 'again'},
	},
	{strokes: ['n'], hint: 'name', help: 'gives the marked guitar another name', command: {kind: 'rename'}},
	{strokes: ['x'], hint: 'delete', help: 'deletes the marked set-up, after a question', command: {kind: 'delete'}},
];

const leaveKey: Keys = {strokes: ['ctrl+c'], hint: 'leave', help: 'leaves', command: {kind: 'leave'}, isPinned: true};

const nameKeys: readonly Keys[] = [
	{strokes: ['enter'], hint: 'store the name', help: 'stores the name', command: {kind: 'choose'}},
	{strokes: ['escape'], hint: 'no change', help: 'leaves the name as it was', command: {kind: 'close'}},
	{strokes: ['ctrl+u'], help: 'clears the line', command: {kind: 'edit', edit: 'clear'}},
	...editKeys,
	leaveKey,
];

const sureKeys: readonly Keys[] = [
	{strokes: ['y'], hint: 'yes, delete', help: 'deletes it for good', command: {kind: 'sure'}},
	{strokes: ['escape'], hint: 'no', help: 'leaves it as it was; so does any other key', command: {kind: 'close'}},
	leaveKey,
];

const heldKeys: readonly Keys[] = [
	{
		strokes: ['y'],
		hint: 'take it over',
		help: 'takes the set-up over; the other program is told and loses nothing',
		command: {kind: 'sure'},
	},
	{strokes: ['enter'], hint: 'look only', help: 'shows it without entering anything', command: {kind: 'look'}},
	{strokes: ['escape'], hint: 'leave it', help: 'leaves it alone; so does any other key', command: {kind: 'close'}},
	leaveKey,
];
