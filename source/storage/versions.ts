import {isRecord} from '../session/shape.ts';

/**
 * Every stored file says what it is and in which version of its layout:
 * `{"format": "evenfloat-setup", "version": 1, ...}`. A layout that changes
 * gets the next number and one step here from the number before; steps are
 * pure, run in order on reading, and are kept for good.
 */
export type Step = (document: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>;

export interface Layout {
	readonly format: string;
	/** The version that this program writes. */
	readonly version: number;
	/** `steps[n]` turns version n into n + 1. */
	readonly steps: Readonly<Record<number, Step>>;
}

export type Opened =
	| {readonly kind: 'current'; readonly document: Readonly<Record<string, unknown>>}
	/** Written by a later program: must not be touched. */
	| {readonly kind: 'newer'; readonly version: number}
	| {readonly kind: 'damaged'; readonly why: string};

/** Reads a stored text up to today's layout. What the fields hold is checked by the reader of that format. */
export function openDocument(text: string, layout: Layout): Opened {
	let document: unknown;
	try {
		document = JSON.parse(text);
	} catch {
		return {kind: 'damaged', why: 'it is not whole JSON'};
	}
	if (!isRecord(document)) return {kind: 'damaged', why: 'it does not hold an object'};
	const {format, version} = document;
	if (format !== layout.format) return {kind: 'damaged', why: `it is not marked as ${layout.format}`};
	if (typeof version !== 'number' || !Number.isSafeInteger(version) || version < 1) {
		return {kind: 'damaged', why: 'it does not say its version'};
	}
	if (version > layout.version) return {kind: 'newer', version};
	let current = document;
	for (let from = version; from < layout.version; from++) {
		const step = layout.steps[from];
		if (step === undefined) {
			throw new RangeError(`openDocument: expected a step from version ${from} of ${layout.format}, got none`);
		}
		current = {...step(current), version: from + 1};
	}
	return {kind: 'current', document: current};
}
