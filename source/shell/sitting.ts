import type {Deed} from '../session/facts.ts';
import {sheetCsv} from '../session/report/as-csv.ts';
import {sheetHtml} from '../session/report/as-html.ts';
import {sheetMarkdown} from '../session/report/as-markdown.ts';
import {setUpSheet} from '../session/report/set-up-sheet.ts';
import {sheetJson} from '../session/report/sheet-data.ts';
import {edits, emptyEntry, type Entry, entryOf, insert} from '../terminal/entry.ts';
import {bindingFor} from '../terminal/keys.ts';
import {isCharacter, type Stroke} from '../terminal/strokes.ts';
import {askNow, toggleEar} from './ears/hear.ts';
import {nextChoice} from './ears/heard-question.ts';
import {stageBefore} from './place.ts';
import type {Ports} from './ports.ts';
import {moveAhead, seenBy, stringNamed} from './seen.ts';
import {type Command, sittingKeys} from './sitting-keys.ts';
import {type Overlay, type Sitting, settled} from './state.ts';
import {putBack, refused, said, storeDeeds, takeBack} from './store-deeds.ts';

/** What a command leads to: another state of the sitting, or out of it. */
export type Outcome = Sitting | 'list' | 'leave';

/** One key. */
export function pressInSitting(sitting: Sitting, stroke: Stroke, ports: Ports): Outcome {
	if (sitting.asking?.by === 'key' && stroke !== 'ctrl+c') {
		const {deeds} = sitting.asking;
		return stroke === 'y' ? storeDeeds(settled(sitting), deeds, ports) : said(sitting, 'Left as it was.');
	}

	const binding = bindingFor(sittingKeys(sitting, seenBy(sitting, ports)), stroke);
	if (binding && !isTyping(sitting, stroke)) return obey(sitting, binding.command, ports);
	return typed(sitting, stroke);
}

/** In a note every character is text; elsewhere a bound one is a command only where the table says so. */
function isTyping({writing}: Sitting, stroke: Stroke): boolean {
	return writing === 'note' && isCharacter(stroke);
}

function typed(sitting: Sitting, stroke: Stroke): Sitting {
	return isCharacter(stroke) ? withEntry(sitting, insert(sitting.entry, stroke)) : sitting;
}

/** A question was about other words than those now on the line; a refusal may stay to be read. */
function withEntry(sitting: Sitting, entry: Entry): Sitting {
	if (entry.text === sitting.entry.text && entry.cursor === sitting.entry.cursor) return sitting;
	const {overlay: _, ...rest} = sitting.asking ? settled(sitting) : sitting;
	return {...rest, entry};
}

function obey(sitting: Sitting, command: Command, ports: Ports): Outcome {
	switch (command.kind) {
		case 'enter':
			return entered(sitting, ports, false);
		case 'meant':
			return sitting.asking ? storeDeeds(sitting, sitting.asking.deeds, ports) : entered(sitting, ports, true);
		case 'practise':
			return practised(sitting, ports);
		case 'undo':
			return takeBack(sitting, ports);
		case 'redo':
			return putBack(sitting, ports);
		case 'note':
			return {...settled(sitting), writing: 'note', entry: emptyEntry};
		case 'back':
			return back(sitting, ports);
		case 'list':
			return 'list';
		case 'leave':
			return 'leave';
		case 'close':
			return closed(sitting);
		case 'string':
			return chosenNext(sitting, command.step, ports);
		case 'scroll':
			return {...sitting, scroll: Math.max(0, sitting.scroll + command.step)};
		case 'overlay':
			return toggled(sitting, command.overlay);
		case 'deeds':
			return asked(sitting, command, ports);
		case 'listen':
			return toggleEar(sitting, ports);
		case 'hear-now':
			return askNow(sitting);
		case 'choice':
			return nextChoice(sitting, command.step);
		case 'save-sheet':
			return sheetWritten(sitting, ports);
		case 'edit':
			return withEntry(sitting, edits[command.edit](sitting.entry));
	}
}

function entered(sitting: Sitting, ports: Ports, isMeant: boolean): Sitting {
	const {text} = sitting.entry;
	if (sitting.writing === 'note') {
		const note = text.trim();
		return note === '' ? closed(sitting) : storeDeeds(sitting, [{type: 'NoteWritten', text: note}], ports);
	}

	const {bench, stage, task} = seenBy(sitting, ports);
	if (text.trim() === '') {
		if (!task.enter) return sitting;
		return task.enter.deeds === 'practice' ? practised(sitting, ports) : storeDeeds(sitting, task.enter.deeds, ports);
	}

	if (!stage) return refused(sitting, 'Nothing is asked any more. Clear the line; < opens the last step again.');
	const answer = stage.answer(text, task, bench, {meant: isMeant});
	switch (answer.kind) {
		case 'deeds':
			return storeDeeds(sitting, answer.deeds, ports);
		case 'refused':
			return refused(sitting, answer.said);
		case 'question':
			if (isMeant) return storeDeeds(sitting, answer.deedsIfMeant, ports);
			return {
				...settled(sitting),
				message: {as: 'attention', text: answer.said},
				asking: {by: 'answer', deeds: answer.deedsIfMeant},
			};
	}
}

function practised(sitting: Sitting, ports: Ports): Sitting {
	const move = moveAhead(seenBy(sitting, ports), sitting.entry);
	if (!move) return said(sitting, 'There is nothing here for simulated hands to do.');
	return storeDeeds(sitting, ports.practise(sitting.journal.story, move), ports);
}

function asked(
	sitting: Sitting,
	{deeds, ask}: {readonly deeds: readonly Deed[]; readonly ask?: string},
	ports: Ports,
): Sitting {
	if (ask === undefined) return storeDeeds(sitting, deeds, ports);
	return {
		...settled(sitting),
		message: {as: 'attention', text: `${ask} y yes, any other key no.`},
		asking: {by: 'key', deeds},
	};
}

function sheetWritten(sitting: Sitting, ports: Ports): Sitting {
	const {bench} = seenBy(sitting, ports);
	const name =
		bench.sheet.name
			.toLowerCase()
			.replaceAll(/[^\p{L}\p{N}]+/gu, '-')
			.replaceAll(/^-|-$/g, '') || 'guitar';
	const report = setUpSheet(bench);
	const written = sheetForms.map(([ending, form]) => ports.writeFile(`${name}-${sitting.id}.${ending}`, form(report)));
	const failed = written.find(({ok}) => !ok);
	const others = sheetForms.slice(1).map(([ending]) => `.${ending}`);
	const text = failed?.said ?? `${written[0]!.said}; beside it as ${others.join(', ')}.`;
	return {...settled(sitting), message: {as: failed ? 'danger' : 'good', text}};
}

/** Ways in which the sheet is written, first what people open. */
const sheetForms = [
	['html', sheetHtml],
	['md', sheetMarkdown],
	['json', sheetJson],
	['csv', sheetCsv],
] as const;

function back(sitting: Sitting, ports: Ports): Sitting {
	const stage = stageBefore(seenBy(sitting, ports).bench, ports.stages);
	if (!stage) return said(sitting, 'This is the first step.');
	return storeDeeds(sitting, [{type: 'StageReopened', stage: stage.id}], ports);
}

function closed(sitting: Sitting): Sitting {
	if (sitting.overlay) return withoutOverlay(sitting);
	return {...settled(sitting), entry: emptyEntry, writing: 'answer'};
}

function withoutOverlay({overlay: _, ...rest}: Sitting): Sitting {
	return {...rest, scroll: 0};
}

function toggled(sitting: Sitting, overlay: Overlay): Sitting {
	return sitting.overlay === overlay ? withoutOverlay(sitting) : {...sitting, overlay, scroll: 0};
}

/** The chosen string stands on the entry line, where it can be seen and rubbed out. */
function chosenNext(sitting: Sitting, step: 1 | -1, ports: Ports): Sitting {
	const {bench, task} = seenBy(sitting, ports);
	const strings = bench.strings.map(({string}) => string);
	const from = stringNamed(sitting.entry, bench) ?? task.string;
	const at = from === undefined ? (step > 0 ? -1 : 0) : strings.indexOf(from);
	const next = strings[(at + step + strings.length) % strings.length]!;
	return {...settled(sitting), entry: next === task.string ? emptyEntry : entryOf(`${next}: `)};
}
