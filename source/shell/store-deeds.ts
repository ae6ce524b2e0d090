import type {Deed} from '../session/facts.ts';
import {entryCount, type Journal, record, redo, undo} from '../session/journal.ts';
import {emptyEntry} from '../terminal/entry.ts';
import {withLesson} from './learned.ts';
import type {Ports} from './ports.ts';
import {seenBy} from './seen.ts';
import {type Message, type Sitting, settled} from './state.ts';
import {entriesOf, entryWords, isWayOnly} from './story-words.ts';

/** Rules, record, disk, and only then the screen: what was refused or could not be stored changes nothing. */
export function storeDeeds(sitting: Sitting, deeds: readonly Deed[], ports: Ports): Sitting {
	const {story} = sitting.journal;
	const decision = ports.decide(deeds, story);
	if (!decision.ok) return refused(sitting, decision.said);
	const journal = record(sitting.journal, deeds, ports.now());
	if (journal === sitting.journal) return settled(sitting);
	const before = seenBy(sitting, ports);
	const cautionsRead = [...new Set([...sitting.cautionsRead, ...(before.task.cautions ?? [])])];
	const stored = keep({...sitting, cautionsRead}, journal, ports, {as: 'quiet', text: ''});
	if (stored.journal !== journal) return stored;
	const after = seenBy(stored, ports);
	const words = entryWords(deeds, after.bench.sheet);
	const isElsewhere = after.stage !== before.stage;
	if (!isElsewhere && isWayOnly(deeds)) return settled(stored);
	const text = isElsewhere && after.stage ? `Stored. Next step: ${after.stage.title}.` : `Stored: ${words}.`;
	return {...stored, message: {as: isElsewhere ? 'good' : 'quiet', text}};
}

export function takeBack(sitting: Sitting, ports: Ports): Sitting {
	const {journal} = sitting;
	if (entryCount(journal.story) <= 1) return said(sitting, 'There is nothing to take back: this is the beginning.');
	const words = entryWords(entriesOf(journal.story).at(-1)!, seenBy(sitting, ports).bench.sheet);
	return keep(sitting, undo(journal), ports, {as: 'accent', text: `Taken back: ${words}. r puts it back.`});
}

export function putBack(sitting: Sitting, ports: Ports): Sitting {
	const entry = sitting.journal.undone.at(-1);
	if (entry === undefined) return said(sitting, 'There is nothing to put back.');
	const words = entryWords(entry, seenBy(sitting, ports).bench.sheet);
	return keep(sitting, redo(sitting.journal), ports, {as: 'accent', text: `Put back: ${words}.`});
}

/** On the disk first. */
function keep(sitting: Sitting, journal: Journal, ports: Ports, message: Message): Sitting {
	if (sitting.isLookOnly) {
		return refused(
			sitting,
			'You only look on: this set-up is open elsewhere. Press l and open it again to take it over.',
		);
	}

	const saved = ports.store.save(sitting.id, journal);
	if (!saved.ok) return {...settled(sitting), message: {as: 'danger', text: `Not stored. ${saved.said}`}};
	const next: Sitting = {...settled(sitting), journal, isStored: true, entry: emptyEntry, writing: 'answer', message};
	markPlace(next, ports);
	followName(sitting, next, ports);
	return next;
}

/** The list shows where a set-up stands; that it could not be marked is no reason to stop anybody. */
function markPlace(sitting: Sitting, ports: Ports): void {
	const {stage} = seenBy(sitting, ports);
	ports.store.mark(sitting.id, {...(stage && {stage: stage.id}), finished: stage === undefined});
	if (stage === undefined) keepLesson(sitting, ports);
}

/** The next set-up of this guitar starts from what this one taught. */
function keepLesson({id, guitarId, journal, learned}: Sitting, ports: Ports): void {
	const lesson = ports.lessonOf(journal.story, learned);
	ports.store.saveLearned(guitarId, withLesson(ports.store.loadLearned(guitarId), id, lesson, ports.now()));
}

/** The guitar on the list is called what its sheet says. */
function followName(before: Sitting, after: Sitting, ports: Ports): void {
	const was = seenBy(before, ports).bench.sheet.name;
	const is = seenBy(after, ports).bench.sheet.name;
	if (was !== is) ports.store.renameGuitar(after.guitarId, is);
}

export function refused(sitting: Sitting, text: string): Sitting {
	return {...settled(sitting), message: {as: 'attention', text}};
}

export function said(sitting: Sitting, text: string): Sitting {
	return {...settled(sitting), message: {as: 'quiet', text}};
}
