import type {Edit} from './entry.ts';
import type {Binding} from './keys.ts';

export interface EditCommand {
	readonly kind: 'edit';
	readonly edit: Edit;
}

/** Keys that change the entry line; the same wherever something is typed. */
export const editKeys: readonly Binding<EditCommand>[] = [
	{
		strokes: ['backspace'],
		help: 'rubs out the character before the cursor',
		command: {kind: 'edit', edit: 'backspace'},
	},
	{strokes: ['delete'], help: 'rubs out the character under the cursor', command: {kind: 'edit', edit: 'delete'}},
	{strokes: ['ctrl+w'], help: 'rubs out the word before the cursor', command: {kind: 'edit', edit: 'rub-word'}},
	{strokes: ['left'], help: 'moves the cursor left', command: {kind: 'edit', edit: 'left'}},
	{strokes: ['right'], help: 'moves the cursor right', command: {kind: 'edit', edit: 'right'}},
	{strokes: ['home', 'ctrl+a'], help: 'moves the cursor to the beginning', command: {kind: 'edit', edit: 'home'}},
	{strokes: ['end', 'ctrl+e'], help: 'moves the cursor to the end', command: {kind: 'edit', edit: 'end'}},
];
