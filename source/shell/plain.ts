import {createInterface} from 'node:readline';
import {emptyEntry, entryOf} from '../terminal/entry.ts';
import {bindingFor, helpLines} from '../terminal/keys.ts';
import {asciiGlyphs} from '../terminal/glyphs.ts';
import {textOf} from '../terminal/line.ts';
import {attentionOf, type EarsFollower, earsFollower} from './ears/follow-ears.ts';
import {hear} from './ears/hear.ts';
import {onFault} from './life.ts';
import {openingItems} from './opening-items.ts';
import {openingKeys} from './opening-keys.ts';
import {overlayLines} from './overlay-lines.ts';
import {sayHelp, sayOpening, sayTable, saySitting} from './plain-words.ts';
import type {Ports} from './ports.ts';
import {seenBy} from './seen.ts';
import {sittingKeys} from './sitting-keys.ts';
import {type Ending, faultEnding, type Left, type Wizard} from './state.ts';
import {leave, press} from './wizard.ts';

/**
 * The same wizard line by line: for screen readers, simple terminals and
 * pipes. One prompt a line; what is typed is an answer, or one of the keys
 * that the full screen has (`u`, `?`), or a colon and such a key where words
 * are asked for (`:u`), or `table`; `down` where what was heard may be another
 * string's. What is heard comes in between and is printed.
 */
export async function runPlain(
	first: Wizard,
	{
		ports,
		input,
		say,
		untilHangUp,
	}: {
		readonly ports: Ports;
		readonly input: NodeJS.ReadableStream;
		readonly say: (text: string) => void;
		/** Told how to leave when the program is to end from outside; answers with how to stop listening for that. */
		readonly untilHangUp?: (leaveNow: () => Left) => () => void;
	},
): Promise<Ending> {
	let wizard = first;
	let told = tell(undefined, wizard, ports, say);
	let fault: {readonly error: unknown} | undefined;
	/** Called when there is nothing more to be heard for now. */
	let quiet = () => {};
	const lines = createInterface({input, crlfDelay: Number.POSITIVE_INFINITY});
	const go = (next: Wizard) => {
		const before = wizard;
		wizard = next;
		told = tell({wizard: before, told}, wizard, ports, say);
		ears.follow(wizard);
		if (!mayHear(wizard, ears, ports)) quiet();
	};
	const ears = earsFollower(ports, event => {
		try {
			go(hear(wizard, event, ports));
		} catch (error) {
			fault = {error};
			lines.close();
			quiet();
		}
	});
	ears.follow(wizard);
	const stopListening = untilHangUp?.(() => leave(wizard, ports));
	const broken = onFault(error => {
		fault = {error};
		lines.close();
		quiet();
	});
	try {
		for await (const line of lines) {
			const next = obeyLine(wizard, line, ports, say);
			if (next.screen === 'left') return {kind: 'left', left: next};
			go(next);
		}

		// A recording is heard out: its readings may be all that was to be said.
		if (mayHear(wizard, ears, ports)) await new Promise<void>(resolve => (quiet = resolve));
		if (fault) throw fault.error;
	} catch (error) {
		return faultEnding(leave(wizard, ports), error);
	} finally {
		ears.stop();
		lines.close();
		stopListening?.();
		broken();
	}

	return {kind: 'left', left: leave(wizard, ports), inputEnded: true};
}

/** A recording that goes on, at a place where it is listened to. */
function mayHear(wizard: Wizard, ears: EarsFollower, ports: Ports): boolean {
	if (wizard.screen !== 'sitting' || !ears.isOpen() || !ports.ears?.hasEnd) return false;
	return attentionOf(wizard, ports).isWanted;
}

/** One line typed. */
export function obeyLine(wizard: Wizard, line: string, ports: Ports, say: (text: string) => void): Wizard {
	const text = line.trim();
	if (wizard.screen === 'opening') return obeyOpening(wizard, text, ports, say);
	if (wizard.screen === 'left') return wizard;
	if (wizard.asking?.by === 'key') return press(wizard, text[0]?.toLowerCase() === 'y' ? 'y' : 'escape', ports);
	if (text === '') return press(wizard, line === ' ' ? ' ' : 'enter', ports);
	if (wizard.asking && text === '!') return press(wizard, '!', ports);
	if (wizard.asking?.by === 'ear' && /^down$/i.test(text)) return press(wizard, 'down', ports);
	const clear = {...press({...wizard, entry: emptyEntry}, 'escape', ports)};
	if (clear.screen !== 'sitting') return clear;
	const seen = seenBy(clear, ports);
	if (text === 'table') {
		say(sayTable(seen.bench));
		return clear;
	}

	const isWriting = clear.writing === 'note';
	const isColon = /^:\S$/u.test(text);
	const key = isColon ? text[1]! : [...text].length === 1 ? text : undefined;
	const keys = sittingKeys(clear, isColon ? {...seen, task: {...seen.task, freeText: false}} : seen);
	const binding = key !== undefined && !isWriting ? bindingFor(keys, key) : undefined;
	if (binding?.command.kind === 'overlay') {
		const {overlay} = binding.command;
		if (overlay === 'help') {
			say(sayHelp(clear, ports));
			return clear;
		}

		say(overlayLines(overlay, {sitting: clear, seen, ports}, {width: 76, glyphs: asciiGlyphs}).map(textOf).join('\n'));
		return clear;
	}

	if (binding && isColon && seen.task.freeText) return press({...clear, entry: emptyEntry}, letterless(key!), ports);
	if (binding) return press(clear, key!, ports);
	const answered = press({...clear, writing: wizard.writing, entry: entryOf(text)}, 'enter', ports);
	return answered;
}

/** Where words are asked for, letters are text; these have another stroke with the same meaning. */
function letterless(key: string): string {
	return ({u: 'ctrl+u', r: 'ctrl+r', q: 'ctrl+c', p: ' '} as Readonly<Record<string, string>>)[key] ?? key;
}

function obeyOpening(
	wizard: Extract<Wizard, {screen: 'opening'}>,
	text: string,
	ports: Ports,
	say: (text: string) => void,
): Wizard {
	if (wizard.naming) return press({...wizard, naming: {...wizard.naming, entry: entryOf(text)}}, 'enter', ports);
	if (text === '') return press(wizard, 'enter', ports);
	if (text === '?') {
		say(helpLines(openingKeys(wizard), 76).map(textOf).join('\n'));
		return wizard;
	}

	if (wizard.asking) return press(wizard, text[0]!.toLowerCase() === 'y' ? 'y' : 'n', ports);
	const [, word, number] = /^(\p{L})?\s*(\d{1,4})?$/u.exec(text) ?? [];
	const at = number === undefined ? wizard.at : Number(number) - 1;
	const isThere = at >= 0 && at < openingItems(wizard).length;
	if ((word === undefined && number === undefined) || !isThere) {
		const said = `Read “${text}”. Type the number of a line, ? for help, or q to leave.`;
		return {...wizard, message: {as: 'attention', text: said}};
	}

	return press({...wizard, at}, word ?? 'enter', ports);
}

/** Says what is new: the message, and the task when it is another one. Returns the task's words. */
function tell(
	before: {readonly wizard: Wizard; readonly told: string} | undefined,
	wizard: Wizard,
	ports: Ports,
	say: (text: string) => void,
): string {
	if (wizard.screen === 'left') return '';
	const note = noteOf(wizard);
	const isHeard = note !== undefined && (before === undefined || earOf(wizard)?.heard !== earOf(before.wizard)?.heard);
	if (isHeard) say(note);
	if (wizard.message && (before === undefined || wizard.message !== messageOf(before.wizard))) say(wizard.message.text);
	const text = wizard.screen === 'opening' ? sayOpening(wizard, ports) : saySitting(wizard, ports);
	const isNew = before?.told !== text.body;
	if (isNew) say(text.body);
	// Sound comes in all the time; only what it changed is worth a prompt.
	const isView = before?.wizard.screen === 'sitting' && before.wizard.ear !== earOf(wizard) && !isHeard;
	if (!isView || isNew || wizard.message !== messageOf(before.wizard)) say(text.prompt);
	return text.body;
}

function earOf(wizard: Wizard) {
	return wizard.screen === 'sitting' ? wizard.ear : undefined;
}

/** What was heard, as one line of its own. */
function noteOf(wizard: Wizard): string | undefined {
	return earOf(wizard)?.note;
}

function messageOf(wizard: Wizard) {
	return wizard.screen === 'left' ? undefined : wizard.message;
}
