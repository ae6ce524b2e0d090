import type {SetupSummary} from '../storage/store.ts';
import {type Entry, edits, entryOf, insert} from '../terminal/entry.ts';
import {bindingFor} from '../terminal/keys.ts';
import {isCharacter, type Stroke} from '../terminal/strokes.ts';
import {type OpeningItem, openingItems} from './opening-items.ts';
import {type OpeningCommand, openingKeys} from './opening-keys.ts';
import type {Ports} from './ports.ts';
import type {Message, Opening} from './state.ts';

export function openOpening(ports: Ports, message?: Message): Opening {
	const kept = ports.store.list();
	const warning = ports.store.warnings.at(-1);
	const shown = message ?? (warning === undefined ? undefined : ({as: 'attention', text: warning} as const));
	return {screen: 'opening', kept, at: 0, ...(shown && {message: shown})};
}

/** What a key on the first screen leads to. */
export type OpeningOutcome =
	| Opening
	| 'leave'
	| {readonly open: string; readonly by: 'claim' | 'take-over' | 'look'}
	| {readonly start: 'real' | 'practice'; readonly guitar?: SetupSummary};

export function pressInOpening(opening: Opening, stroke: Stroke, ports: Ports): OpeningOutcome {
	if (opening.naming) return pressInName(opening, opening.naming, stroke, ports);
	const binding = bindingFor(openingKeys(opening), stroke);
	if (!binding) return opening.asking ? settle(opening, {as: 'quiet', text: 'Left as it was.'}) : opening;
	return obey(opening, binding.command, ports);
}

function obey(opening: Opening, command: OpeningCommand, ports: Ports): OpeningOutcome {
	const items = openingItems(opening);
	const item = items[Math.min(opening.at, items.length - 1)]!;
	switch (command.kind) {
		case 'move':
			return {...settle(opening), at: Math.min(items.length - 1, Math.max(0, opening.at + command.step))};
		case 'pick':
			return command.at < items.length ? chosen(items[command.at]!) : opening;
		case 'choose':
			return chosen(item);
		case 'again':
			return 'summary' in item ? {start: item.summary.practice ? 'practice' : 'real', guitar: item.summary} : opening;
		case 'rename':
			return 'summary' in item
				? {...settle(opening), naming: {summary: item.summary, entry: entryOf(item.summary.guitarName)}}
				: opening;
		case 'delete':
			return 'summary' in item ? askToDelete(opening, item.summary) : opening;
		case 'sure':
			return sure(opening, ports);
		case 'look':
			return opening.asking ? {open: opening.asking.summary.id, by: 'look'} : opening;
		case 'help':
			return {...settle(opening), isHelpOpen: !opening.isHelpOpen};
		case 'close':
			return {...settle(opening), isHelpOpen: false};
		case 'leave':
			return 'leave';
		case 'edit':
			// Only while a name is typed.
			return opening;
	}
}

function chosen(item: OpeningItem): OpeningOutcome {
	switch (item.kind) {
		case 'resume':
		case 'kept':
			return {open: item.summary.id, by: 'claim'};
		case 'new':
			return {start: 'real'};
		case 'practice':
			return {start: 'practice'};
	}
}

function askToDelete(opening: Opening, summary: SetupSummary): Opening {
	const text = `Delete this set-up of “${summary.guitarName}” for good? y yes, any other key no.`;
	return {...opening, asking: {kind: 'delete', summary}, message: {as: 'attention', text}};
}

function sure(opening: Opening, ports: Ports): OpeningOutcome {
	const {asking} = opening;
	if (!asking) return opening;
	if (asking.kind === 'held') return {open: asking.summary.id, by: 'take-over'};
	const removed = ports.store.remove(asking.summary.id);
	const message: Message = removed.ok
		? {as: 'quiet', text: 'Deleted.'}
		: {as: 'danger', text: `Not deleted. ${removed.said}`};
	return again(opening, message, ports);
}

function pressInName(
	opening: Opening,
	{summary, entry}: NonNullable<Opening['naming']>,
	stroke: Stroke,
	ports: Ports,
): OpeningOutcome {
	const command = bindingFor(openingKeys(opening), stroke)?.command;
	const withEntry = (next: Entry): Opening => ({...opening, naming: {summary, entry: next}});
	switch (command?.kind) {
		case 'leave':
			return 'leave';
		case 'close':
			return settle(opening, {as: 'quiet', text: 'Left as it was.'});
		case 'edit':
			return withEntry(edits[command.edit](entry));
		case 'choose':
			return named(opening, summary, entry.text.trim(), ports);
		default:
			return isCharacter(stroke) ? withEntry(insert(entry, stroke)) : opening;
	}
}

function named(opening: Opening, summary: SetupSummary, name: string, ports: Ports): Opening {
	if (name === '') {
		const text = 'The name is empty. Type a name, for example: blue one. Esc leaves it as it was.';
		return {...opening, message: {as: 'attention', text}};
	}

	const renamed = ports.store.renameGuitar(summary.guitarId, name);
	const message: Message = renamed.ok
		? {as: 'quiet', text: `Now called “${name}”.`}
		: {as: 'danger', text: `Not renamed. ${renamed.said}`};
	return again(opening, message, ports);
}

/** The list read anew, the place kept as far as it still exists. */
function again(opening: Opening, message: Message, ports: Ports): Opening {
	const next = openOpening(ports, message);
	return {...next, at: Math.min(opening.at, openingItems(next).length - 1)};
}

function settle({asking: _, naming: __, message: ___, ...rest}: Opening, message?: Message): Opening {
	return {...rest, ...(message && {message})};
}
