import type {Fact} from '../session/facts.ts';
import {isJournal} from '../session/fact-shape.ts';
import type {Journal} from '../session/journal.ts';
import {hasShape, isFlag, isNumber, isText, optional, type ShapeOf} from '../session/shape.ts';
import {type Layout, type Opened, openDocument} from './versions.ts';

/** One set-up as it lies in `setups/ID.json`. Times are milliseconds since 1970. */
export interface StoredSetup extends Journal {
	readonly id: string;
	readonly guitarId: string;
	readonly startedAt: number;
	readonly changedAt: number;
	/** Where the person was, in the wizard's own id; the wizard derives the rest. */
	readonly stage?: string;
	readonly finished: boolean;
	/** Set when two programs went on from the same set-up: the one that this was split from. */
	readonly splitFrom?: string;
}

export const setupLayout: Layout = {format: 'evenfloat-setup', version: 1, steps: {}};

const headShape: ShapeOf<Omit<StoredSetup, keyof Journal>> = {
	id: isText,
	guitarId: isText,
	startedAt: isNumber,
	changedAt: isNumber,
	stage: optional(isText),
	finished: isFlag,
	splitFrom: optional(isText),
};

export type Read<T> = {readonly kind: 'current'; readonly value: T} | Exclude<Opened, {kind: 'current'}>;

export function setupFrom(text: string): Read<StoredSetup> {
	const opened = openDocument(text, setupLayout);
	if (opened.kind !== 'current') return opened;
	return checkedSetup(opened.document);
}

/** For a document that already is of today's layout. */
export function checkedSetup(document: unknown): Read<StoredSetup> {
	if (!hasShape(headShape)(document)) return {kind: 'damaged', why: 'its head is not whole'};
	if (!isJournal(document)) return {kind: 'damaged', why: 'its facts are not whole'};
	const {format: _, version: __, ...setup} = document as StoredSetup & {format?: unknown; version?: unknown};
	return {kind: 'current', value: setup};
}

/** JSON with one fact to a line, so that a person can read a set-up and compare two. */
export function setupText(setup: StoredSetup): string {
	const {story, undone, ...head} = setup;
	const {format, version} = setupLayout;
	const headText = JSON.stringify({format, version, ...head}, undefined, '\t');
	const storyText = lines(story, '\t\t');
	const undoneText = undone.map(entry => `\n\t\t[${lines(entry, '\t\t\t')}\n\t\t]`).join(',');
	return `${headText.slice(0, -2)},\n\t"story": [${storyText}\n\t],\n\t"undone": [${undoneText}\n\t]\n}\n`;
}

function lines(facts: readonly Fact[], indent: string): string {
	return facts.map(fact => `\n${indent}${textOf(fact)}`).join(',');
}

// Facts never change, and each save writes nearly the same ones as the save before.
const texts = new WeakMap<Fact, string>();

function textOf(fact: Fact): string {
	const known = texts.get(fact);
	if (known !== undefined) return known;
	const text = JSON.stringify(fact);
	texts.set(fact, text);
	return text;
}
