import {emptyJournal, record} from '../session/journal.ts';
import {sheetForNextTime} from '../session/sheet.ts';
import type {Holder, SetupSummary} from '../storage/store.ts';
import {emptyEntry} from '../terminal/entry.ts';
import {type Stroke, strokesOfText} from '../terminal/strokes.ts';
import {learnedFor} from './learned.ts';
import {openingItems} from './opening-items.ts';
import {openOpening, pressInOpening} from './opening.ts';
import type {Ports} from './ports.ts';
import {seenBy} from './seen.ts';
import {pressInSitting} from './sitting.ts';
import type {Left, Opening, Sitting, Wizard} from './state.ts';

/**
 * The whole wizard as one function: where it is and a key give where it is
 * next. What must last goes to the store inside, before the new state exists.
 */
export function press(wizard: Wizard, stroke: Stroke, ports: Ports): Wizard {
	switch (wizard.screen) {
		case 'left':
			return wizard;
		case 'sitting': {
			const outcome = pressInSitting(wizard, stroke, ports);
			if (outcome === 'leave') return leave(wizard, ports);
			if (outcome === 'list') return toList(wizard, ports);
			return outcome;
		}

		case 'opening': {
			const outcome = pressInOpening(wizard, stroke, ports);
			if (outcome === 'leave') return leave(wizard, ports);
			if ('open' in outcome) return openSetup(wizard, outcome.open, outcome.by, ports);
			if ('start' in outcome)
				return startSetup(ports, outcome.start === 'practice' ? ports.seed() : undefined, outcome.guitar);
			return outcome;
		}
	}
}

/**
 * A paste: its lines are entries, one after the other. After one that is not
 * simply stored the rest is dropped, so that an answer meant for one question
 * never reaches another; that one stays on the entry line.
 */
export function paste(wizard: Wizard, text: string, ports: Ports): Wizard {
	let now = wizard;
	for (const stroke of strokesOfText(text)) {
		// What is pasted is text: on an empty line its first letter must not act as a key.
		if (stroke !== 'enter' && now.screen === 'sitting' && now.entry.text === '' && !now.asking) {
			now = {...now, entry: {text: stroke, cursor: stroke.length}};
			continue;
		}

		const before = now;
		now = press(now, stroke, ports);
		if (
			stroke === 'enter' &&
			(now.screen !== 'sitting' || before.screen !== 'sitting' || now.journal === before.journal)
		)
			break;
	}

	return now;
}

/** A set-up that is on the disk. If another program has it, the first screen asks what to do. */
export function openSetup(from: Opening, id: string, by: 'claim' | 'take-over' | 'look', ports: Ports): Wizard {
	const {store} = ports;
	const summary = store.list().find(kept => kept.id === id);
	const loaded = store.load(id);
	if (!loaded.ok || !summary) {
		const text = loaded.ok ? `There is no set-up ${id} in ${store.folder}.` : loaded.said;
		return openOpening(ports, {as: 'danger', text});
	}

	const {journal} = loaded;
	if (journal.story.length === 0) return openOpening(ports, {as: 'danger', text: `The set-up ${id} is empty.`});
	const claim = by === 'look' ? undefined : by === 'claim' ? store.claim(id) : store.takeOver(id);
	if (claim && !claim.held) return askHeld(from, summary, claim.by);
	return sit(summary, {journal, isStored: true, isLookOnly: claim === undefined}, ports);
}

/** A new set-up: its first entry is a sheet to start from, so that there always is one. On the disk with the first answer. */
export function startSetup(ports: Ports, practiceSeed: number | undefined, guitar?: SetupSummary): Sitting {
	const {store} = ports;
	const sheet = (guitar && lastSheet(guitar.id, ports)) ?? ports.firstSheet(practiceSeed);
	const summary = store.create(guitar ? {id: guitar.guitarId, name: guitar.guitarName} : {name: sheet.name});
	store.claim(summary.id);
	const journal = record(emptyJournal, [{type: 'SheetFilled', sheet}], ports.now());
	return sit(summary, {journal, isStored: false, isLookOnly: false}, ports);
}

/** The next set-up of a guitar starts from what was last said about it and still holds. */
function lastSheet(id: string, ports: Ports) {
	const loaded = ports.store.load(id);
	const last = loaded.ok ? loaded.journal.story.findLast(fact => fact.type === 'SheetFilled')?.sheet : undefined;
	return last && sheetForNextTime(last);
}

function sit(summary: SetupSummary, base: Pick<Sitting, 'journal' | 'isStored' | 'isLookOnly'>, ports: Ports): Sitting {
	const {id, guitarId} = summary;
	const learned = learnedFor(ports.store.loadLearned(guitarId), summary);
	return {
		screen: 'sitting',
		id,
		guitarId,
		...base,
		...(learned && {learned}),
		entry: emptyEntry,
		writing: 'answer',
		scroll: 0,
		cautionsRead: [],
		...(ports.ears?.startsOn && !base.isLookOnly && {ear: {nows: 0}}),
	};
}

function askHeld(from: Opening, summary: SetupSummary, {pid, since}: Holder): Opening {
	const when = new Date(since).toLocaleTimeString('en-GB', {hour: '2-digit', minute: '2-digit'});
	const text = `This set-up is open in another program (process ${pid}, since ${when}). y takes it over, Enter only looks, any other key leaves it.`;
	return {...from, asking: {kind: 'held', summary}, message: {as: 'attention', text}};
}

function toList(sitting: Sitting, ports: Ports): Opening {
	release(sitting, ports);
	const opening = openOpening(ports);
	const at = openingItems(opening).findIndex(item => 'summary' in item && item.summary.id === sitting.id);
	return {...opening, at: Math.max(0, at)};
}

function release({id, isLookOnly}: Sitting, ports: Ports): void {
	if (isLookOnly) return;
	const claim = ports.store.claim(id);
	if (claim.held) claim.release();
}

/** What is said after leaving, however it came about. */
export function leave(wizard: Wizard, ports: Ports): Left {
	if (wizard.screen === 'left') return wizard;
	if (wizard.screen === 'opening') return {screen: 'left', said: []};
	release(wizard, ports);
	return {screen: 'left', said: farewell(wizard, ports), isFinished: seenBy(wizard, ports).stage === undefined};
}

/** Where the set-up is stored and how to go on with it. */
export function farewell(sitting: Sitting, ports: Ports): readonly string[] {
	if (!sitting.isStored) return ['Nothing was entered, so nothing is stored.'];
	const {bench, stage} = seenBy(sitting, ports);
	return [
		`The set-up of “${bench.sheet.name}” is stored in ${ports.store.folder}`,
		stage
			? `It stands at: ${stage.title}. Go on with: evenfloat open ${sitting.id}`
			: `It is done. Look at it again with: evenfloat open ${sitting.id}`,
	];
}
